package org.jointwalk.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.PrintWriter;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.FixtureMapFile;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Gauge;
import org.jointwalk.job.Action;
import org.jointwalk.link.LinkFixture;
import org.jointwalk.link.Ticks;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.jointwalk.study.Clamper;
import org.jointwalk.study.Order;
import org.jointwalk.study.Study;
import org.jointwalk.study.StudyException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/**
 * The command {@code fixture study}.
 *
 * <p>As JSON: {@code format} ({@code jointwalk gauge study 1}), {@code identity}, {@code
 * operators}, {@code seatings}, {@code positions}, {@code mean_ohms}, {@code ranges} and {@code
 * anova} (each with {@code repeatability}, {@code reproducibility}, {@code gauge}, {@code
 * positions} and {@code total} as standard deviations in ohm, each but the last also as {@code
 * ..._percent} of the total, and {@code categories}), {@code interaction}, {@code strange}, and
 * {@code limits} (each with {@code name}, {@code ohms}, {@code percent} and {@code fitness}: fit,
 * with-care, unfit).
 */
@Command(
    name = "study",
    description =
        "Finds out how well the fixture repeats: a bare interposer, clamped several times by each"
            + " of several people.",
    footer = {
      "",
      "Only the bare interposer may be in the fixture: no board, no battery. Never force the lid.",
      "",
      "Example:",
      "  jointwalk fixture study --pads fixture-maps/saltmarsh-s2.pads.json"
          + " --fixture fixture-maps/saltmarsh-photo-relay.fixture.json"
          + " --stack fixture-maps/saltmarsh-good.stack.json --operators AB,CD,EF"
    })
final class FixtureStudy implements Callable<Integer> {

  private final FixtureCommand fixture;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private LogOption log = new LogOption();
  @Mixin private MapOptions maps = new MapOptions();
  @Mixin private PortOptions port = new PortOptions();

  @Option(
      names = "--operators",
      paramLabel = "INITIALS",
      split = ",",
      required = true,
      description = "Who clamps in turn, 1 to 10 people: AB,CD,EF.")
  private List<String> operators = new ArrayList<>();

  @Option(
      names = "--seatings",
      paramLabel = "NUMBER",
      defaultValue = "3",
      description = "How often each of them clamps, 2 to 10; ${DEFAULT-VALUE} without this option.")
  private int seatings = 3;

  @Option(
      names = "--pad",
      paramLabel = "PAD",
      description = "A pad to read; may be given up to ten times. Without it, ten from all around.")
  private List<String> pads = new ArrayList<>();

  @Option(names = "--json", description = "One JSON object on standard output, for scripts.")
  private boolean json;

  FixtureStudy(FixtureCommand fixture) {
    this.fixture = fixture;
  }

  @Override
  public Integer call() throws InputException, FileFaults, FixtureException, IOException {
    if (operators.size() > 10
        || seatings < 2
        || seatings > 10
        || operators.stream().anyMatch(String::isBlank)) {
      throw new InputException("--operators names 1 to 10 people, and --seatings is 2 to 10.");
    }
    String version = Version.number();
    SetUp bare = SetUp.named("interposer").orElseThrow();
    Optional<Specimen> specimen = port.specimen();
    MapOptions.Maps read = maps.read(specimen.map(Specimen::variant));
    Assembly assembly = new Assembly(read.map(), read.interposer(), bare);
    Surroundings here = fixture.surroundings();
    try (Jobs jobs = log.jobs(here)) {
      Order order =
          new Order(
              assembly,
              read.fixtureMap().contacts(),
              pads,
              operators,
              seatings,
              jobs.log().keep("fixture", FixtureMapFile.write(read.fixtureMap())),
              version);
      Gauge gauge =
          specimen.isPresent()
              ? virtual(read, specimen.get(), bare, jobs, order)
              : real(read, assembly, jobs, order);
      tell(gauge);
      return (gauge.limits().stream().anyMatch(l -> l.fitness() == Gauge.Fitness.UNFIT)
              ? ExitCode.FAULT_FOUND
              : ExitCode.GOOD)
          .number();
    } catch (StudyException e) {
      throw new InputException(String.valueOf(e.getMessage()));
    } finally {
      here.stops().accept(Optional.empty());
    }
  }

  private Gauge virtual(MapOptions.Maps read, Specimen specimen, SetUp bare, Jobs jobs, Order order)
      throws FixtureException, StudyException {
    VirtualFixture virtual =
        new VirtualFixture(read.map(), specimen, read.fixtureMap(), VirtualFixture.Conditions.CALM);
    List<Action> apart = List.of(new Action.Split(Side.UPPER), new Action.Lift());
    PrintWriter err = spec.commandLine().getErr();
    return run(
        virtual,
        (by, number, of) -> {
          err.println(by + " clamps, " + number + " of " + of + ".");
          virtual.clamp(bare, apart);
          return true;
        },
        jobs,
        order);
  }

  private Gauge real(MapOptions.Maps read, Assembly assembly, Jobs jobs, Order order)
      throws FixtureException, StudyException, InputException {
    Surroundings here = fixture.surroundings();
    if (!here.terminal()) {
      throw new InputException("A study needs people who clamp: run it at a terminal.");
    }
    try (LinkFixture line =
        LinkFixture.open(
            port.real(),
            assembly,
            read.fixtureMap(),
            Ticks.ofThisComputer(),
            new SecureRandom(),
            port.settings())) {
      return run(line, (by, number, of) -> asked(line, by, number, of), jobs, order);
    }
  }

  private boolean asked(LinkFixture line, String by, int number, int of) {
    PrintWriter err = spec.commandLine().getErr();
    err.println(
        "CLAMP  "
            + by
            + ", "
            + number
            + " of "
            + of
            + ": open the lid, lift the interposer, put it back, close the lid without forcing it,"
            + " then press Enter.");
    err.flush();
    Optional<String> typed = fixture.surroundings().line().get();
    line.seatedByWord();
    return typed.isPresent();
  }

  private Gauge run(Fixture on, Clamper clamper, Jobs jobs, Order order)
      throws FixtureException, StudyException {
    Study study = new Study(on, jobs.log(), clamper, order);
    fixture.surroundings().stops().accept(Optional.of(study::stop));
    return study.run();
  }

  private void tell(Gauge gauge) {
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      JsonText.write(out, generator -> write(generator, gauge));
      out.flush();
      return;
    }
    Console console = fixture.console(spec);
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
    out.flush();
  }

  private static void row(
      Columns columns,
      String name,
      Gauge gauge,
      java.util.function.ToDoubleFunction<Gauge.Parts> part) {
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

  private static void write(JsonGenerator out, Gauge gauge) throws IOException {
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
