package org.jointwalk.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Intake;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Question.Need;
import org.jointwalk.joblog.MemoryJobLog;
import org.jointwalk.link.LinkFixture;
import org.jointwalk.link.LinkSettings;
import org.jointwalk.link.Ports;
import org.jointwalk.link.Ticks;
import org.jointwalk.pass.Operator;
import org.jointwalk.pass.Pass;
import org.jointwalk.pass.PassException;
import org.jointwalk.pass.Request;
import org.jointwalk.simulator.Analog;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.tool.NeedsTool;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * One seeded pass of one stack on the simulator in process, on the firmware behind a
 * pseudo-terminal and on its image for a microcontroller: the same grades.
 */
@NeedsTool("make")
@NeedsTool("gcc")
@Timeout(300)
class SameGradesTest {

  private static final PadMap MAP = SixtyPositions.map();
  private static final SetUp SET_UP = SetUp.named("interposer-on-lower").orElseThrow();
  private static final Assembly ASSEMBLY = new Assembly(MAP, MAP.interposers().get(0), SET_UP);
  private static final List<Action> ACTIONS = List.of(new Action.Split(Side.UPPER));

  @TempDir private Path folder = Path.of("");

  private static LinkFixture link(String port, FixtureMap wired) throws FixtureException {
    return LinkFixture.open(
        Ports.named(port, LinkSettings.DEFAULTS),
        ASSEMBLY,
        wired,
        Ticks.ofThisComputer(),
        new SplittableRandom(7),
        LinkSettings.DEFAULTS);
  }

  /** What the firmware says of itself; the simulator is made to match. */
  private static Capabilities said() throws Exception {
    FixtureMap likely = SixtyPositions.wired(MAP, SixtyPositions.firmware(MAP));
    try (Firmware firmware = pty();
        LinkFixture fixture = link(firmware.port(), likely)) {
      return fixture.capabilities();
    }
  }

  private static Firmware pty(String... more) throws Exception {
    List<String> options =
        new ArrayList<>(
            List.of("--identity", SixtyPositions.IDENTITY, "--time", "20000", "--settle", "0"));
    options.addAll(List.of(more));
    return Firmware.onPty(options.toArray(String[]::new));
  }

  private static VirtualFixture clamped(FixtureMap wired, long seed) {
    VirtualFixture fixture =
        new VirtualFixture(
            MAP, SixtyPositions.specimen(seed), wired, VirtualFixture.Conditions.CALM);
    fixture.clamp(SET_UP, ACTIONS);
    return fixture;
  }

  private static List<String> pass(Fixture fixture, Runnable lid)
      throws FixtureException, PassException {
    JobLog log = new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC);
    List<Event> events = new ArrayList<>();
    events.add(new Event.Opened(new Intake(MAP.device(), "", "dropped", List.of(), ""), "ab"));
    ACTIONS.forEach(action -> events.add(new Event.Done(action, "ab")));
    log.append("J-0001", 0, events);
    Operator operator =
        new Operator() {

          @Override
          public boolean reseat(List<String> positions) {
            lid.run();
            return true;
          }

          @Override
          public void progress(Need need, int taken, int of) {}

          @Override
          public void remark(String text) {}
        };
    Request request =
        new Request(
            "J-0001",
            ASSEMBLY,
            SixtyPositions.wired(MAP, fixture.capabilities()).contacts(),
            Purpose.DIAGNOSIS,
            "p",
            "f",
            "ab",
            "test",
            false);
    return new Pass(fixture, log, operator, request)
        .run().findings().positions().stream().map(f -> f.position() + " " + f.grade()).toList();
  }

  private static List<String> inProcess(FixtureMap wired, long seed)
      throws FixtureException, PassException {
    VirtualFixture fixture = clamped(wired, seed);
    return pass(fixture, fixture::reseat);
  }

  /** Moves the lid and waits each time until the firmware has believed it. */
  private static void reseat(AnalogSide side, LinkFixture fixture) {
    for (boolean open : new boolean[] {true, false}) {
      side.lid(open);
      boolean believed = false;
      while (!believed) {
        try {
          believed = fixture.lidOpen() == open;
        } catch (FixtureException e) {
          throw new AssertionError(e);
        }
      }
    }
  }

  /** Starts firmware that measures at a socket. */
  @FunctionalInterface
  private interface Start {
    Firmware at(Path socket) throws Exception;
  }

  private List<String> onFirmware(FixtureMap wired, long seed, String what, Start start)
      throws Exception {
    Path socket = folder.resolve("analog" + seed + what);
    Analog analog = new Analog(clamped(wired, seed), wired, new SplittableRandom(seed));
    try (AnalogSide side = new AnalogSide(socket, analog);
        Firmware firmware = start.at(socket);
        LinkFixture fixture = link(firmware.port(), wired)) {
      long begun = System.nanoTime();
      List<String> grades = pass(fixture, () -> reseat(side, fixture));
      System.out.printf(
          Locale.ROOT,
          "figure: a pass over 60 positions on %s took %.1f s%n",
          what,
          (System.nanoTime() - begun) / 1e9);
      assertThat(fixture.capabilities().ranges()).isEqualTo(wired.capabilities().ranges());
      return grades;
    }
  }

  @Test
  void faultsOfTheStackAreFoundInProcess() throws Exception {
    List<String> grades = inProcess(SixtyPositions.wired(MAP, said()), 1);

    assertThat(grades)
        .hasSize(60)
        .contains("R15 OPEN", "R26 HIGH", "R38 OPEN", "R46 BRIDGED", "R47 BRIDGED");
  }

  @Test
  void pseudoTerminalGivesTheSameGradesWhateverTheSeed() throws Exception {
    FixtureMap wired = SixtyPositions.wired(MAP, said());
    for (long seed = 1; seed <= 5; seed++) {
      assertThat(onFirmware(wired, seed, "pty", at -> pty("--analog", at.toString())))
          .as("seed %d", seed)
          .isEqualTo(inProcess(wired, seed));
    }
  }

  @Test
  @NeedsTool("arm-none-eabi-gcc")
  @NeedsTool("qemu-system-arm")
  void emulatedMicrocontrollerGivesTheSameGrades() throws Exception {
    FixtureMap wired = SixtyPositions.wired(MAP, said());
    assertThat(onFirmware(wired, 1, "qemu", Firmware::onQemu)).isEqualTo(inProcess(wired, 1));
  }

  @Test
  @NeedsTool("arm-none-eabi-gcc")
  @NeedsTool("qemu-system-arm")
  void microcontrollerWhoseInstructionsAreCountedGivesTheSameGrades() throws Exception {
    FixtureMap wired = SixtyPositions.wired(MAP, said());
    assertThat(onFirmware(wired, 1, "icount", at -> Firmware.onQemu(at, "-icount", "shift=auto")))
        .isEqualTo(inProcess(wired, 1));
  }
}
