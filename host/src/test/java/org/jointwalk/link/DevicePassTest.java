package org.jointwalk.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Consumer;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Intake;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Question.Need;
import org.jointwalk.joblog.MemoryJobLog;
import org.jointwalk.pass.Operator;
import org.jointwalk.pass.Pass;
import org.jointwalk.pass.PassException;
import org.jointwalk.pass.Request;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.saltmarsh.Stacks;
import org.jointwalk.simulator.Device;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

/** The same pass in process and over a line to the virtual device. */
class DevicePassTest {

  private static final PadMap MAP = SaltmarshS2.map();
  private static final String SET_UP = "interposer-on-lower";
  private static final List<Action> ACTIONS = Stacks.actionsOnDropped().subList(0, 1);
  private static final int MIDDLE = 1_000;

  private final HandTicks ticks = new HandTicks();
  private final JobLog log = new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC);
  private int reseated;
  private int taken;

  private Findings pass(Fixture fixture, FixtureMap wired, Runnable lid, Runnable each)
      throws FixtureException, PassException {
    List<Event> events = new ArrayList<>();
    events.add(
        new Event.Opened(new Intake(MAP.device(), "", "dropped", List.of("radio"), ""), "ab"));
    ACTIONS.forEach(action -> events.add(new Event.Done(action, "ab")));
    String job = "J-000" + (log.read("J-0001").isEmpty() ? 1 : 2);
    log.append(job, 0, events);
    Operator operator =
        new Operator() {

          @Override
          public boolean reseat(List<String> positions) {
            reseated++;
            lid.run();
            return true;
          }

          @Override
          public void progress(Need need, int readings, int of) {
            each.run();
          }

          @Override
          public void remark(String text) {}
        };
    Assembly assembly = SmallMap.assembly(MAP, SET_UP);
    Request request =
        new Request(
            job, assembly, wired.contacts(), Purpose.DIAGNOSIS, "p", "f", "ab", "test", false);
    return new Pass(fixture, log, operator, request).run().findings();
  }

  private Findings inProcess(FixtureMap wired) throws Exception {
    VirtualFixture virtual =
        new VirtualFixture(MAP, Stacks.dropped(), wired, VirtualFixture.Conditions.CALM);
    virtual.clamp(SetUp.named(SET_UP).orElseThrow(), ACTIONS);
    return pass(virtual, wired, virtual::reseat, () -> {});
  }

  private Findings overTheLine(FixtureMap wired, Consumer<DevicePort> inMidPass) throws Exception {
    Device device =
        new Device(
            MAP,
            Stacks.dropped(),
            wired,
            VirtualFixture.Conditions.CALM,
            setUp -> ACTIONS,
            0,
            new Device.Start(7, 1),
            Device.Witness.NONE);
    DevicePort port = new DevicePort(device, ticks);
    try (LinkFixture fixture =
        LinkFixture.open(
            port,
            SmallMap.assembly(MAP, SET_UP),
            wired,
            ticks,
            new SplittableRandom(3),
            LinkSettings.DEFAULTS)) {
      return pass(
          fixture,
          wired,
          () -> {
            device.openLid();
            device.closeLid();
          },
          () -> {
            taken++;
            if (taken == MIDDLE / 64) {
              inMidPass.accept(port);
            }
          });
    }
  }

  private static List<String> grades(Findings findings) {
    return findings.positions().stream().map(f -> f.position() + " " + f.grade()).toList();
  }

  @Test
  void multiplexerGivesTheSameGradesOverALine() throws Exception {
    FixtureMap wired = FixtureMaps.photoRelay(MAP);

    assertThat(grades(overTheLine(wired, port -> {}))).isEqualTo(grades(inProcess(wired)));
    assertThat(reseated).isPositive();
  }

  @Test
  void matrixGivesTheSameGradesOverALine() throws Exception {
    FixtureMap wired = FixtureMaps.relayMatrix(MAP);

    assertThat(grades(overTheLine(wired, port -> {}))).isEqualTo(grades(inProcess(wired)));
  }

  @Test
  void cableThatIsPulledInMidPassChangesNoGrade() throws Exception {
    FixtureMap wired = FixtureMaps.photoRelay(MAP);

    assertThat(grades(overTheLine(wired, DevicePort::pull))).isEqualTo(grades(inProcess(wired)));
    assertThat(taken).isGreaterThan(MIDDLE / 64);
  }

  /** Ten minutes after SIGSTOP and SIGCONT, of which the program knows nothing. */
  @Test
  void programThatIsSuspendedForTenMinutesInMidPassChangesNoGrade() throws Exception {
    FixtureMap wired = FixtureMaps.photoRelay(MAP);

    assertThat(grades(overTheLine(wired, port -> ticks.pass(Duration.ofMinutes(10)))))
        .isEqualTo(grades(inProcess(wired)));
    assertThat(taken).isGreaterThan(MIDDLE / 64);
  }
}
