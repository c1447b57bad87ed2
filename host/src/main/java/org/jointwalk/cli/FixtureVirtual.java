package org.jointwalk.cli;

import java.io.FileDescriptor;
import java.io.FileInputStream;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import java.util.function.Function;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.SpecimenFile;
import org.jointwalk.job.Action;
import org.jointwalk.job.Job;
import org.jointwalk.simulator.Analog;
import org.jointwalk.simulator.Device;
import org.jointwalk.simulator.LineWeather;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code fixture virtual}. */
@Command(
    footer = {
      "",
      "With --stdio it ends with its input, with --tcp when the program is told to end.",
      "",
      "Its lid moves by itself only where a technician must have opened it: when a pass declares another"
          + " set-up than lies there, or when the job has recorded work on the parts since they were"
          + " laid in. A pass that was stopped or killed finds them as it left them. Listening on a"
          + " port, it takes words on its input: \"lid\" opens the lid, seats the parts again and"
          + " closes it; \"button\" presses the button.",
      "",
      "Example:",
      "  jointwalk fixture virtual --tcp 0 --pads fixture-maps/saltmarsh-s2.pads.json"
          + " --fixture fixture-maps/saltmarsh-photo-relay.fixture.json"
          + " --stack fixture-maps/saltmarsh-dropped.stack.json --job J-0001 --faults"
          + " drop=0.01,latency=usb",
      "",
      "With --analog the fixture is firmware that runs elsewhere and connects to the socket; this"
          + " command measures for it what it closes and drives, one firmware after the other. The"
          + " fixture map is the one that the firmware's wiring follows. Words are taken as with a"
          + " port; --pace says nothing, since the firmware keeps the time.",
      "",
      "Example, two processes, then a pass with --port /tmp/fixture:",
      "  jointwalk fixture virtual --analog unix:/tmp/analog --set-up interposer-on-lower"
          + " --pads fixture-maps/saltmarsh-s2.pads.json"
          + " --fixture fixture-maps/saltmarsh-relay-matrix.fixture.json"
          + " --stack fixture-maps/saltmarsh-dropped.stack.json",
      "  firmware-protocol/target/firmware/fixture-pty --link /tmp/fixture --analog /tmp/analog"
          + " --identity marsh-matrix-1 --calibration works-1 --channels 2000"
    })
final class FixtureVirtual implements Callable<Integer> {

  /** Shortest ways to take a stack apart, in the order in which they are tried. */
  private static final List<List<Action>> WAYS =
      List.of(
          List.of(),
          List.of(new Action.Split(Side.UPPER)),
          List.of(new Action.Split(Side.LOWER)),
          List.of(new Action.Split(Side.UPPER), new Action.Lift()));

  private static final int MOST_PORT = 65_535;

  private final FixtureCommand parent;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private LogOption log = new LogOption();
  @Mixin private MapOptions maps = new MapOptions();

  @ArgGroup(multiplicity = "1")
  private Where where = new Where();

  /** Where the line ends. */
  static final class Where {

    @Option(
        names = "--stdio",
        required = true,
        description = "Speaks on standard input and output, and says nothing else there.")
    private boolean stdio;

    @Option(
        names = "--tcp",
        paramLabel = "PORT",
        required = true,
        description = "Listens on this port of this computer; 0 for any that is free.")
    private int tcp = -1;

    @Option(
        names = "--analog",
        paramLabel = "SOCKET",
        required = true,
        description =
            "Measures for firmware that connects to unix:PATH, or to tcp:PORT of this computer;"
                + " port 0 for any that is free.")
    private @Nullable String analog;
  }

  @Option(
      names = "--stack",
      paramLabel = "FILE",
      required = true,
      description = "What lies in the fixture: a stack file.")
  private @Nullable Path stack;

  @Option(
      names = "--seed",
      paramLabel = "NUMBER",
      description = "Another draw of everything that chance decides.")
  private @Nullable Long seed;

  @Option(
      names = "--job",
      paramLabel = "ID",
      description =
          "The job whose actions so far say what is left of the stack. Without it, whatever a"
              + " set-up needs counts as done.")
  private @Nullable String job;

  @Option(
      names = "--set-up",
      paramLabel = "NAME",
      description =
          "With --analog: what is clamped, since only the firmware is told: joined, upper-board,"
              + " lower-board, interposer-on-lower, interposer-on-upper, interposer or empty.")
  private @Nullable String setUp;

  @Option(
      names = "--pace",
      paramLabel = "PACE",
      converter = Choice.OfPace.class,
      completionCandidates = Choice.OfPace.class,
      description =
          "${COMPLETION-CANDIDATES}: whether steps take the time of relays, or none. Without it,"
              + " real.")
  private Tempo pace = Tempo.REAL;

  @Option(
      names = "--faults",
      paramLabel = "FAULTS",
      description = "What the line does to frames, such as drop=0.01,delay=0.02:50,latency=usb.")
  private String faults = "";

  /** How the fixture spends its time. */
  enum Tempo {
    REAL,
    FREE
  }

  FixtureVirtual(FixtureCommand parent) {
    this.parent = parent;
  }

  @Override
  public Integer call() throws InputException, FileFaults, IOException {
    LineWeather weather = weather();
    OptionalInt port = port();
    Optional<AnalogSocket> socket = analog();
    Optional<SetUp> clamped = clamped();
    Specimen specimen = specimen();
    MapOptions.Maps read = maps.read(Optional.of(specimen.variant()));
    Function<SetUp, List<Action>> actions = FixtureVirtual::needed;
    int seatings = 0;
    if (job != null) {
      Recorded recorded = new Recorded(job);
      recorded.refresh();
      seatings = recorded.seatings;
      actions = recorded;
    }
    SecureRandom random = new SecureRandom();
    VirtualFixture.Conditions conditions = VirtualFixture.Conditions.CALM.after(seatings);
    PrintWriter err = spec.commandLine().getErr();
    if (socket.isPresent()) {
      SetUp inside = clamped.orElseThrow();
      VirtualFixture fixture =
          new VirtualFixture(read.map(), specimen, read.fixtureMap(), conditions);
      clamp(fixture, inside, actions.apply(inside));
      new AnalogServer(new Analog(fixture, read.fixtureMap(), random))
          .listen(socket.get(), new FileInputStream(FileDescriptor.in), err);
    }
    Device device =
        new Device(
            read.map(),
            specimen,
            read.fixtureMap(),
            conditions,
            actions,
            pace == Tempo.REAL ? 1 : 0,
            new Device.Start(random.nextLong() & Long.MAX_VALUE, 1),
            Device.Witness.NONE);
    DeviceServer server = new DeviceServer(device, weather, specimen.seed());
    if (port.isPresent()) {
      server.listen(port.getAsInt(), new FileInputStream(FileDescriptor.in), err);
    } else {
      server.speak(
          new FileInputStream(FileDescriptor.in), new FileOutputStream(FileDescriptor.out));
    }
    return ExitCode.GOOD.number();
  }

  private LineWeather weather() throws InputException {
    try {
      return faults.isEmpty() ? LineWeather.FINE : LineWeather.of(faults);
    } catch (IllegalArgumentException e) {
      throw new InputException("--faults " + faults + ": " + e.getMessage());
    }
  }

  private OptionalInt port() throws InputException {
    if (where.stdio || where.analog != null) {
      return OptionalInt.empty();
    }
    if (where.tcp < 0 || where.tcp > MOST_PORT) {
      throw new InputException(
          "--tcp " + where.tcp + " is no port: give 1 to " + MOST_PORT + ", or 0 for any.");
    }
    return OptionalInt.of(where.tcp);
  }

  private Optional<AnalogSocket> analog() throws InputException {
    if (where.analog == null) {
      return Optional.empty();
    }
    if (!faults.isEmpty()) {
      throw new InputException(
          "--faults is for a line, and with --analog the line is the firmware's: leave it out.");
    }
    return Optional.of(AnalogSocket.of(where.analog));
  }

  /** What lies in the fixture from the start; by the protocol, what the host declares. */
  private Optional<SetUp> clamped() throws InputException {
    if ((where.analog == null) != (setUp == null)) {
      throw new InputException("--analog and --set-up go together: give both, or neither.");
    }
    Optional<SetUp> named = Optional.ofNullable(setUp).flatMap(SetUp::named);
    if (setUp != null && named.isEmpty()) {
      throw new InputException("\"" + setUp + "\" is no set-up: see --help.");
    }
    return named;
  }

  private static void clamp(VirtualFixture fixture, SetUp inside, List<Action> actions)
      throws InputException {
    try {
      fixture.clamp(inside, actions);
    } catch (IllegalArgumentException e) {
      throw new InputException("--set-up " + inside.name() + ": " + e.getMessage());
    }
  }

  private Specimen specimen() throws FileFaults {
    Specimen read = SpecimenFile.read(Optional.ofNullable(stack).orElseThrow()).value().specimen();
    long drawn = Optional.ofNullable(seed).orElse(read.seed());
    return new Specimen(read.variant(), drawn, read.defects(), read.outcomes(), read.troubles());
  }

  private static List<Action> needed(SetUp setUp) {
    for (List<Action> way : WAYS) {
      Attachment attachment = Attachment.BOTH;
      for (Action action : way) {
        attachment = action.after(attachment);
      }
      if (setUp.possible().contains(attachment)) {
        return way;
      }
    }
    return List.of();
  }

  /** What a job has recorded; asked again at every clamping, since the job goes on meanwhile. */
  private final class Recorded implements Function<SetUp, List<Action>> {

    private final String id;
    private List<Action> actions = List.of();
    private int seatings;

    private Recorded(String id) {
      this.id = id;
    }

    private void refresh() throws InputException {
      try (Jobs jobs = log.jobs(parent.surroundings())) {
        Job found = jobs.find(id);
        actions = found.actions();
        seatings = found.seatings();
      }
    }

    @Override
    public List<Action> apply(SetUp setUp) {
      try {
        refresh();
      } catch (InputException e) {
        // The log was there at the start; what it said then still holds.
        return actions;
      }
      return actions;
    }
  }
}
