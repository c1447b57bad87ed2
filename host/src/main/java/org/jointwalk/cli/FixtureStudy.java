package org.jointwalk.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.List;
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

/** The command {@code fixture study}. */
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
    if (operators.size() > 10 || operators.stream().anyMatch(String::isBlank)) {
      throw new InputException(
          "--operators "
              + String.join(",", operators)
              + " is not possible. Name 1 to 10 people: AB,CD,EF.");
    }
    if (seatings < 2 || seatings > 10) {
      throw new InputException(
          "--seatings " + seatings + " is not possible. Each clamps 2 to 10 times.");
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
      if (json) {
        PrintWriter out = spec.commandLine().getOut();
        JsonText.write(out, generator -> StudyText.write(generator, gauge));
        out.flush();
      } else {
        StudyText.tell(fixture.console(spec), gauge);
      }
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
}
