package org.jointwalk.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.FixtureMapFile;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Job;
import org.jointwalk.job.WatchRecord;
import org.jointwalk.job.Watched;
import org.jointwalk.link.LinkFixture;
import org.jointwalk.link.Ticks;
import org.jointwalk.pass.Pass;
import org.jointwalk.pass.PassException;
import org.jointwalk.pass.Watch;
import org.jointwalk.pass.WatchRequest;
import org.jointwalk.simulator.Pace;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Specimen;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code watch}. */
@Command(
    name = "watch",
    description = "Loops over suspects while you press the board: which joint drops out first.",
    footer = {
      "",
      "Before clamping: battery out, board discharged and dry. Press gently, with something that"
          + " does not conduct; keep fingers out from under the plate; never force the lid.",
      "",
      "Example:",
      "  jointwalk watch --job J-0001 --set-up interposer-on-lower --seconds 60"
          + " --pads fixture-maps/saltmarsh-s2.pads.json"
          + " --fixture fixture-maps/saltmarsh-photo-relay.fixture.json"
          + " --stack fixture-maps/saltmarsh-dropped.stack.json --pad N014 --pad N015"
    })
final class WatchCommand implements Callable<Integer> {

  private final Main main;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private LogOption log = new LogOption();
  @Mixin private OnJob job = new OnJob();
  @Mixin private MapOptions maps = new MapOptions();
  @Mixin private PortOptions port = new PortOptions();
  @Mixin private ByWhom by = new ByWhom();

  @Option(
      names = "--set-up",
      paramLabel = "NAME",
      required = true,
      description =
          "What is in the fixture: upper-board, lower-board, interposer-on-lower,"
              + " interposer-on-upper or interposer.")
  private String setUp = "";

  @Option(
      names = "--pad",
      paramLabel = "PAD",
      description =
          "A pad to watch besides those that failed or stayed undecided in the last pass of this"
              + " set-up. May be given more than once.")
  private List<String> pads = new ArrayList<>();

  @Option(
      names = "--seconds",
      paramLabel = "NUMBER",
      description = "How long to watch. Without it, until Ctrl-C.")
  private @Nullable Double seconds;

  @Option(
      names = "--above",
      paramLabel = "OHMS",
      defaultValue = "5",
      description =
          "A joint has dropped out when it is open or reads so much more than it did;"
              + " ${DEFAULT-VALUE} ohm without this option.")
  private double above = 5;

  @Option(names = "--no-tone", negatable = false, description = "No tone when a joint drops out.")
  private boolean silent;

  @Option(names = "--json", description = "One JSON object on standard output, for scripts.")
  private boolean json;

  WatchCommand(Main main) {
    this.main = main;
  }

  @Override
  public Integer call()
      throws InputException, FileFaults, FixtureException, PassException, IOException {
    String version = Version.number();
    SetUp chosen = setUp();
    double until = Optional.ofNullable(seconds).orElse(Double.POSITIVE_INFINITY);
    if (!(until > 0) || !(above > 0)) {
      throw new InputException("--seconds and --above are more than nothing.");
    }
    Optional<Specimen> specimen = port.specimen();
    MapOptions.Maps read = maps.read(specimen.map(Specimen::variant));
    Assembly assembly = new Assembly(read.map(), read.interposer(), chosen);
    Surroundings here = main.surroundings();
    try (Jobs jobs = log.jobs(here)) {
      Job before = jobs.findOpen(job.id());
      PassCommand.requireModel(before, read.map().device());
      Optional<Findings> last = last(before, chosen);
      List<String> suspects = suspects(last, read.map());
      Pass.requirePossible(assembly, before);
      jobs.takeTurn(before);
      WatchRequest request =
          new WatchRequest(
              before.id(),
              assembly,
              read.fixtureMap().contacts(),
              suspects,
              good(last),
              above,
              until,
              jobs.log().keep("pads", PadMapFile.write(read.map())),
              jobs.log().keep("fixture", FixtureMapFile.write(read.fixtureMap())),
              by.initials(),
              version);
      Watched watched =
          specimen.isPresent()
              ? run(
                  VirtualBench.clamped(
                      read.map(), read.fixtureMap(), specimen.get(), before, chosen, pace()),
                  () -> true,
                  jobs,
                  request)
              : real(read.fixtureMap(), jobs, request);
      tell(jobs.get(before.id()), watched);
      return (watched.dropping().isEmpty() ? ExitCode.GOOD : ExitCode.FAULT_FOUND).number();
    } finally {
      here.stops().accept(Optional.empty());
    }
  }

  private SetUp setUp() throws InputException {
    return SetUps.named(
        setUp,
        s -> s.over().isPresent() || s.under().isPresent(),
        "to watch in: no plate touches a joint");
  }

  /** Without a time to stop at it is watched as it happens; with one, as fast as it can be. */
  private Pace pace() {
    return seconds == null ? RealPace.of() : Pace.FREE;
  }

  private static Optional<Findings> last(Job job, SetUp setUp) {
    return job.passes().stream()
        .filter(p -> p.begun().setUp().equals(setUp.name()))
        .flatMap(p -> p.graded().stream())
        .reduce((first, second) -> second)
        .map(graded -> graded.findings());
  }

  private List<String> suspects(Optional<Findings> last, PadMap map) throws InputException {
    for (String pad : pads) {
      if (!map.positions().containsKey(pad)) {
        throw new InputException(
            "There is no pad "
                + pad
                + " on the "
                + map.device()
                + ". 'jointwalk map draw' shows where each pad is.");
      }
    }
    Set<String> suspects = new LinkedHashSet<>(pads);
    for (Finding finding : last.map(Findings::positions).orElse(List.of())) {
      if (finding.grade().isFault()
          || finding.grade() == Grade.UNDECIDED
          || finding.grade() == Grade.NOT_CONTACTED) {
        suspects.add(finding.position());
      }
    }
    if (suspects.isEmpty()) {
      throw new InputException(
          (last.isPresent()
                  ? "The last pass of this set-up found nothing wrong"
                  : "There was no pass of this set-up in this job")
              + ", so that it is not known what to watch. Name the pads: --pad N014 --pad N015.");
    }
    return List.copyOf(suspects);
  }

  private static Set<String> good(Optional<Findings> last) {
    return last.map(Findings::positions).orElse(List.of()).stream()
        .filter(f -> f.grade().isConnected())
        .map(Finding::position)
        .collect(Collectors.toSet());
  }

  private Watched real(FixtureMap map, Jobs jobs, WatchRequest request)
      throws FixtureException, PassException, InputException {
    try (LinkFixture fixture =
        LinkFixture.open(
            port.real(),
            request.assembly(),
            map,
            Ticks.ofThisComputer(),
            new SecureRandom(),
            port.settings())) {
      return run(fixture, () -> isShut(fixture), jobs, request);
    }
  }

  private static boolean isShut(LinkFixture fixture) {
    try {
      return !fixture.lidOpen();
    } catch (FixtureException e) {
      // The next run meets the same and says it.
      return true;
    }
  }

  private Watched run(Fixture fixture, AtWatch.Shut shut, Jobs jobs, WatchRequest request)
      throws FixtureException, PassException {
    PrintWriter err = spec.commandLine().getErr();
    Surroundings here = main.surroundings();
    Lines lines = here.terminal() ? Lines.of(here.line()) : Lines.none();
    AtWatch watcher = new AtWatch(err, here.terminal(), !silent, lines, shut);
    Watch watch = new Watch(fixture, jobs.log(), watcher, request);
    here.stops().accept(Optional.of(watch::stop));
    try {
      return watch.run();
    } finally {
      watcher.endLine();
    }
  }

  private void tell(Job after, Watched watched) {
    List<WatchRecord> all = WatchRecord.of(after);
    WatchRecord record = all.get(all.size() - 1);
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      JsonText.write(out, generator -> WatchText.write(generator, record));
    } else {
      Console console = main.console(spec);
      WatchText.tell(console, record);
      console.next(WatchText.next(watched));
      console.line("Connected means connected under clamp pressure.");
    }
    out.flush();
  }
}
