package org.jointwalk.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import org.jointwalk.fixture.Gauge;

/**
 * What a study of a fixture found, in bench words and as JSON. Stateless.
 *
 * <p>As JSON: {@code format} ({@code jointwalk gauge study 1}), {@code identity}, {@code
 * operators}, {@code seatings}, {@code positions}, {@code mean_ohms}, {@code ranges} and {@code
 * anova} (each with {@code repeatability}, {@code reproducibility}, {@code gauge}, {@code
 * positions} and {@code total} as standard deviations in ohm, each but the last also as {@code
 * ..._percent} of the total, and {@code categories}), {@code interaction}, {@code strange}, and
 * {@code limits} (each with {@code name}, {@code ohms}, {@code percent} and {@code fitness}: fit,
 * with-care, unfit).
 */
final class StudyText {

  private StudyText() {}

  /** All of it for the technician. */
  static void tell(Console console, Gauge gauge) {
    for (Gauge.AgainstLimit limit : gauge.limits()) {
      console.title(
          words(limit.fitness())
              + String.format(
                  Locale.ROOT,
                  " for %s, limit %.3g ohm: %s",
                  limit.name(),
                  limit.ohms(),
                  limit.percent() > 999
                      ? "no room below it"
                      : String.format(
                          Locale.ROOT,
                          "three standard deviations take %.1f %% of the room below it",
                          limit.percent())));
    }
    Columns columns = new Columns();
    columns.row("  mohm", "ANOVA", "of total", "average and range", "of total");
    row(columns, "repeatability", gauge, Gauge.Parts::repeatability);
    row(columns, "people", gauge, Gauge.Parts::reproducibility);
    row(columns, "fixture and people", gauge, Gauge.Parts::gauge);
    row(columns, "positions", gauge, Gauge.Parts::positions);
    columns.lines().forEach(console::line);
    console.line(
        "Classes of positions that can be told apart: "
            + (gauge.anova().categories() > 999 ? "any" : "" + gauge.anova().categories())
            + ". Few are no fault: sound vias are all alike, and the limit lies far above them.");
    if (gauge.interaction()) {
      console.line("People and positions do not add up: some clamp some positions otherwise.");
    }
    if (!gauge.strange().isEmpty()) {
      console.line("Further apart than the others: " + String.join(", ", gauge.strange()) + ".");
    }
    console.line(
        Sentences.count(gauge.positions().size(), "position")
            + ", "
            + (gauge.operators().size() == 1 ? "1 person" : gauge.operators().size() + " people")
            + ", "
            + gauge.seatings()
            + " clampings each. Mean "
            + String.format(Locale.ROOT, "%.1f mohm.", gauge.meanOhms() * 1e3));
    console.next(next(gauge));
  }

  private static void row(
      Columns columns, String name, Gauge gauge, ToDoubleFunction<Gauge.Parts> part) {
    double anova = part.applyAsDouble(gauge.anova());
    double ranges = part.applyAsDouble(gauge.ranges());
    columns.row(
        "  " + name,
        String.format(Locale.ROOT, "%.2f", anova * 1e3),
        String.format(Locale.ROOT, "%.0f %%", gauge.anova().percent(anova)),
        String.format(Locale.ROOT, "%.2f", ranges * 1e3),
        String.format(Locale.ROOT, "%.0f %%", gauge.ranges().percent(ranges)));
  }

  private static String words(Gauge.Fitness fitness) {
    return switch (fitness) {
      case FIT -> "FIT";
      case WITH_CARE -> "FIT WITH CARE";
      case UNFIT -> "NOT FIT";
    };
  }

  private static String next(Gauge gauge) {
    boolean bad = gauge.limits().stream().anyMatch(l -> l.fitness() != Gauge.Fitness.FIT);
    if (!bad) {
      return "Nothing to do. Study again after new probes, a new plate or a repair.";
    }
    if (gauge.anova().reproducibility() > gauge.anova().repeatability()) {
      return "The people differ more than their clampings: agree on how the parts are laid in and"
          + " the lid is closed, then study again.";
    }
    if (!gauge.strange().isEmpty()) {
      return "Clean or replace the probes at "
          + String.join(", ", gauge.strange())
          + ", then study again.";
    }
    return "Clean the probes and zero the fixture, then study again. If it stays, set the limit"
        + " higher: joints between are called unresolved.";
  }

  /** The same for other programs. */
  static void write(JsonGenerator out, Gauge gauge) throws IOException {
    out.writeStartObject();
    out.writeStringField("format", "jointwalk gauge study 1");
    out.writeStringField("identity", gauge.identity());
    texts(out, "operators", gauge.operators());
    out.writeNumberField("seatings", gauge.seatings());
    texts(out, "positions", gauge.positions());
    out.writeNumberField("mean_ohms", gauge.meanOhms());
    parts(out, "ranges", gauge.ranges());
    parts(out, "anova", gauge.anova());
    out.writeBooleanField("interaction", gauge.interaction());
    texts(out, "strange", gauge.strange());
    out.writeArrayFieldStart("limits");
    for (Gauge.AgainstLimit limit : gauge.limits()) {
      out.writeStartObject();
      out.writeStringField("name", limit.name());
      out.writeNumberField("ohms", limit.ohms());
      out.writeNumberField("percent", limit.percent());
      out.writeStringField("fitness", Choice.word(limit.fitness()));
      out.writeEndObject();
    }
    out.writeEndArray();
    out.writeEndObject();
  }

  private static void texts(JsonGenerator out, String name, List<String> values)
      throws IOException {
    out.writeArrayFieldStart(name);
    for (String value : values) {
      out.writeString(value);
    }
    out.writeEndArray();
  }

  private static void parts(JsonGenerator out, String name, Gauge.Parts parts) throws IOException {
    out.writeObjectFieldStart(name);
    part(out, "repeatability", parts.repeatability(), parts);
    part(out, "reproducibility", parts.reproducibility(), parts);
    part(out, "gauge", parts.gauge(), parts);
    part(out, "positions", parts.positions(), parts);
    out.writeNumberField("total", parts.total());
    out.writeNumberField("categories", parts.categories());
    out.writeEndObject();
  }

  private static void part(JsonGenerator out, String name, double sd, Gauge.Parts all)
      throws IOException {
    out.writeNumberField(name, sd);
    out.writeNumberField(name + "_percent", all.percent(sd));
  }
}
