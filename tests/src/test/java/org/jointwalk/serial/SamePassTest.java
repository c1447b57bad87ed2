package org.jointwalk.serial;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
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
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.saltmarsh.Stacks;
import org.jointwalk.simulator.Device;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.tool.NeedsTool;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** One pass of one stack in process, over TCP and through a serial device: the same grades. */
@Timeout(120)
class SamePassTest {

  private static final PadMap MAP = SaltmarshS2.map();
  private static final FixtureMap WIRED = FixtureMaps.photoRelay(MAP);
  private static final SetUp SET_UP = SetUp.named("interposer-on-lower").orElseThrow();
  private static final Assembly ASSEMBLY = new Assembly(MAP, MAP.interposers().get(0), SET_UP);
  private static final List<Action> ACTIONS = Stacks.actionsOnDropped().subList(0, 1);

  @TempDir private Path folder = Path.of("");

  private static List<String> pass(Fixture fixture, Runnable lid)
      throws FixtureException, PassException {
    JobLog log = new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC);
    List<Event> events = new ArrayList<>();
    events.add(
        new Event.Opened(new Intake(MAP.device(), "", "dropped", List.of("radio"), ""), "ab"));
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
            "J-0001", ASSEMBLY, WIRED.contacts(), Purpose.DIAGNOSIS, "p", "f", "ab", "test", false);
    return new Pass(fixture, log, operator, request)
        .run().findings().positions().stream().map(f -> f.position() + " " + f.grade()).toList();
  }

  private static List<String> inProcess() throws FixtureException, PassException {
    VirtualFixture fixture =
        new VirtualFixture(MAP, Stacks.dropped(), WIRED, VirtualFixture.Conditions.CALM);
    fixture.clamp(SET_UP, ACTIONS);
    return pass(fixture, fixture::reseat);
  }

  private static DeviceOnTcp device() throws Exception {
    return new DeviceOnTcp(
        new Device(
            MAP,
            Stacks.dropped(),
            WIRED,
            VirtualFixture.Conditions.CALM,
            setUp -> ACTIONS,
            0,
            new Device.Start(5, 1),
            Device.Witness.NONE));
  }

  private static List<String> at(String port, DeviceOnTcp device)
      throws FixtureException, PassException {
    long begun = System.nanoTime();
    try (LinkFixture fixture =
        LinkFixture.open(
            Ports.named(port, LinkSettings.DEFAULTS),
            ASSEMBLY,
            WIRED,
            Ticks.ofThisComputer(),
            new SplittableRandom(7),
            LinkSettings.DEFAULTS)) {
      return pass(fixture, device::reseat);
    } finally {
      System.out.printf(
          Locale.ROOT,
          "figure: a pass at %s took %.1f s%n",
          port,
          (System.nanoTime() - begun) / 1e9);
    }
  }

  @Test
  void tcpGivesTheSameGrades() throws Exception {
    try (DeviceOnTcp device = device()) {
      assertThat(at("tcp:localhost:" + device.port(), device)).isEqualTo(inProcess());
    }
  }

  @Test
  @NeedsTool("socat")
  void serialDeviceGivesTheSameGrades() throws Exception {
    Path tty = folder.resolve("fixture0");
    try (DeviceOnTcp device = device();
        PseudoTerminal terminal =
            PseudoTerminal.at(tty, "TCP:localhost:" + device.port() + ",nodelay")) {
      assertThat(terminal).isNotNull();
      assertThat(at(tty.toString(), device)).isEqualTo(inProcess());
    }
  }
}
