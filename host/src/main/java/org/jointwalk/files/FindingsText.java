package org.jointwalk.files;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Decision;
import org.jointwalk.job.Event;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.quantity.Contribution;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Shape;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Side;

/**
 * Findings to text. Hundreds of estimates share a handful of sources of uncertainty, so these are
 * named once; an estimate is {@code [value,u,dof,source,u,dof,source,u,dof,...]}. Beside {@code
 * sources} stand {@code types}, A or B, and {@code shapes}, {@code [skewness,gross]} or 0 for a
 * bell; where they are not there, as in older logs, every source is a bell and its type follows
 * from its degrees of freedom. A decision is {@code [low,high,level,guard,risk]}. Stateless.
 */
final class FindingsText {

  private FindingsText() {}

  static void write(JsonOut out, Event.PassGraded event) {
    Findings findings = event.findings();
    Map<Source, Integer> sources = new LinkedHashMap<>();
    findings.positions().forEach(f -> f.ohms().ifPresent(ohms -> collect(sources, ohms)));
    findings.bridges().forEach(bridge -> collect(sources, bridge.ohms()));
    out.with("pass", event.pass())
        .with("program", event.program())
        .with("rule", findings.rule())
        .with("sources", sources.keySet().stream().map(Source::name).toList())
        .with("types", sources.keySet().stream().map(s -> Words.of(s.type())).toList())
        .key("shapes")
        .array();
    sources.keySet().forEach(source -> write(out, source.shape()));
    out.end().key("positions").array();
    findings.positions().forEach(finding -> write(out, sources, finding));
    out.end().key("bridges").array();
    for (BridgeFinding bridge : findings.bridges()) {
      out.object().with("a", bridge.a()).with("b", bridge.b()).key("ohms");
      write(out, sources, bridge.ohms());
      out.end();
    }
    out.end().key("boards").array();
    for (BoardFinding board : findings.boards()) {
      out.object()
          .with("side", board.net().side())
          .with("net", board.net().name())
          .with("fault", board.fault())
          .with("reason", board.reason())
          .end();
    }
    out.end();
  }

  /** What the contributions of many estimates have in common. */
  private record Source(String name, Contribution.Type type, Shape shape) {

    private static Source of(Contribution c) {
      return new Source(c.source(), c.type(), c.shape());
    }
  }

  private static void write(JsonOut out, Shape shape) {
    if (shape.equals(Shape.BELL)) {
      out.whole(0);
    } else {
      out.array().number(shape.skewness()).number(shape.gross()).end();
    }
  }

  private static void collect(Map<Source, Integer> sources, Estimate estimate) {
    estimate.budget().forEach(c -> sources.computeIfAbsent(Source.of(c), s -> sources.size()));
  }

  private static void write(JsonOut out, Map<Source, Integer> sources, Finding finding) {
    out.object()
        .with("at", finding.position())
        .with("grade", finding.grade())
        .with("seatings", finding.seatings())
        .with("confirmed", finding.confirmed());
    finding
        .ohms()
        .ifPresent(
            ohms -> {
              out.key("ohms");
              write(out, sources, ohms);
            });
    finding.limit().ifPresent(limit -> out.with("limit_ohms", limit.value()));
    finding.detectable().ifPresent(least -> out.with("detectable_ohms", least.value()));
    finding
        .decision()
        .ifPresent(
            d ->
                out.key("decision")
                    .array()
                    .number(d.low())
                    .number(d.high())
                    .number(d.level())
                    .number(d.guard().value())
                    .number(d.risk())
                    .end());
    if (!finding.among().isEmpty()) {
      out.with("among", finding.among().stream().map(Names::of).toList());
    }
    out.with("reason", finding.reason()).end();
  }

  private static void write(JsonOut out, Map<Source, Integer> sources, Estimate estimate) {
    out.array().number(estimate.value()).number(estimate.u()).number(estimate.dof());
    for (Contribution c : estimate.budget()) {
      out.whole(sources.getOrDefault(Source.of(c), 0)).number(c.u()).number(c.dof());
    }
    out.end();
  }

  static Event.PassGraded read(Field body) {
    Sources sources = Sources.read(body);
    Findings findings =
        new Findings(
            body.at("positions").each(finding -> finding(sources, finding)),
            body.at("bridges")
                .each(
                    bridge ->
                        new BridgeFinding(
                            bridge.at("a").text(),
                            bridge.at("b").text(),
                            estimate(sources, bridge.at("ohms")))),
            body.at("boards")
                .each(
                    board ->
                        new BoardFinding(
                            new NetId(board.at("side").word(Side.class), board.at("net").text()),
                            board.at("fault").word(BoardFinding.Fault.class),
                            board.at("reason").text())),
            body.at("rule").text());
    return new Event.PassGraded(
        body.at("pass").count(Integer.MIN_VALUE), findings, body.at("program").text());
  }

  private static Finding finding(Sources sources, Field field) {
    return new Finding(
        field.at("at").text(),
        field.at("grade").word(Grade.class),
        field.at("ohms").maybe(ohms -> estimate(sources, ohms)),
        field.at("limit_ohms").maybe(ohms -> new Ohms(ohms.notNegative())),
        field.at("seatings").count(Integer.MIN_VALUE),
        field.at("confirmed").flag(),
        field.at("detectable_ohms").maybe(ohms -> new Ohms(ohms.notNegative())),
        components(field.at("among")),
        field.at("reason").text(),
        field.at("decision").maybe(FindingsText::decision));
  }

  private static Decision decision(Field field) {
    List<Field> parts = field.items();
    if (parts.size() != 5) {
      throw new IllegalArgumentException(field.place() + " is no decision");
    }
    return new Decision(
        parts.get(0).anyNumber(),
        parts.get(1).anyNumber(),
        parts.get(2).anyNumber(),
        new Ohms(parts.get(3).notNegative()),
        parts.get(4).anyNumber());
  }

  /**
   * What an event says of its sources.
   *
   * @param names as long as there are sources
   * @param types the same, or empty in an older event
   * @param shapes the same
   */
  private record Sources(List<String> names, List<Contribution.Type> types, List<Shape> shapes) {

    private static Sources read(Field body) {
      return new Sources(
          body.at("sources").each(Field::text),
          body.at("types").eachIfGiven(type -> type.word(Contribution.Type.class)),
          body.at("shapes").eachIfGiven(Sources::shape));
    }

    private static Shape shape(Field field) {
      if (!field.isList()) {
        return Shape.BELL;
      }
      List<Field> parts = field.items();
      if (parts.size() != 2) {
        throw new IllegalArgumentException(field.place() + " is no shape");
      }
      return new Shape(parts.get(0).anyNumber(), parts.get(1).anyNumber());
    }

    private Contribution contribution(Field number, double u, double dof) {
      int source = number.count(0);
      if (source >= names.size()) {
        throw new IllegalArgumentException(number.place() + " is no number of a source");
      }
      return source < types.size() && source < shapes.size()
          ? new Contribution(names.get(source), u, dof, types.get(source), shapes.get(source))
          : new Contribution(names.get(source), u, dof);
    }
  }

  /** A list of components in the words of {@link Names}; none when the field is not there. */
  static List<Component> components(Field field) {
    return field.eachIfGiven(
        item ->
            Names.component(item.text())
                .orElseThrow(
                    () ->
                        new IllegalArgumentException(
                            item.place() + " is no component: " + item.shown())));
  }

  private static Estimate estimate(Sources sources, Field field) {
    List<Field> parts = field.items();
    if (parts.size() < 3 || parts.size() % 3 != 0) {
      throw new IllegalArgumentException(field.place() + " is no estimate");
    }
    List<Contribution> budget = new ArrayList<>();
    for (int i = 3; i < parts.size(); i += 3) {
      budget.add(
          sources.contribution(
              parts.get(i), parts.get(i + 1).anyNumber(), parts.get(i + 2).anyNumber()));
    }
    return new Estimate(
        parts.get(0).anyNumber(), parts.get(1).anyNumber(), parts.get(2).anyNumber(), budget);
  }
}
