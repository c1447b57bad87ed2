package org.jointwalk.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jointwalk.fixture.Fixture;
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
import org.jointwalk.pass.Request;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.saltmarsh.Stacks;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

/** Whole passes of the demo's stack, in process and through the bytes of the protocol. */
class PassThroughBytesTest {

  private static final PadMap MAP = SaltmarshS2.map();

  /** Set-ups of the demo's story with the number of actions done before each. */
  private static final Map<String, Integer> STORY =
      Map.of("upper-board", 1, "interposer-on-lower", 1, "lower-board", 2, "interposer", 2);

  /** What a pass found, and which steps a fixture that keeps its ceilings would have refused. */
  private record Found(Findings findings, Map<StepRefusal, Integer> refused) {}

  private static Found pass(String setUp, FixtureMap wired, boolean throughBytes) throws Exception {
    List<Action> actions = Stacks.actionsOnDropped().subList(0, STORY.getOrDefault(setUp, 0));
    VirtualFixture virtual =
        new VirtualFixture(MAP, Stacks.dropped(), wired, VirtualFixture.Conditions.CALM);
    virtual.clamp(SetUp.named(setUp).orElseThrow(), actions);
    ThroughBytes bytes = new ThroughBytes(virtual, MAP, wired);
    JobLog log = new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC);
    List<Event> events = new ArrayList<>();
    events.add(
        new Event.Opened(new Intake(MAP.device(), "", "dropped", List.of("radio"), ""), "ab"));
    actions.forEach(action -> events.add(new Event.Done(action, "ab")));
    log.append("J-0001", 0, events);
    Assembly assembly = SmallMap.assembly(MAP, setUp);
    Fixture fixture = throughBytes ? bytes : virtual;
    Pass pass =
        new Pass(
            fixture,
            log,
            reseating(virtual),
            new Request(
                "J-0001",
                assembly,
                wired.contacts(),
                Purpose.DIAGNOSIS,
                "p",
                "f",
                "ab",
                "test",
                false));
    return new Found(pass.run().findings(), bytes.refused());
  }

  private static Operator reseating(VirtualFixture fixture) {
    return new Operator() {
      @Override
      public boolean reseat(List<String> positions) {
        fixture.reseat();
        return true;
      }

      @Override
      public void progress(Need need, int taken, int of) {}

      @Override
      public void remark(String text) {}
    };
  }

  private static List<String> grades(Findings findings) {
    return findings.positions().stream().map(f -> f.position() + " " + f.grade()).toList();
  }

  private static void compare(FixtureMap wired, String setUp) throws Exception {
    Found direct = pass(setUp, wired, false);
    Found bytes = pass(setUp, wired, true);

    assertThat(grades(bytes.findings()))
        .as(wired.name() + " " + setUp)
        .isEqualTo(grades(direct.findings()));
    if (setUp.equals("interposer")) {
      assertThat(bytes.refused().keySet())
          .as("a plan for the bare interposer does not prove it bare")
          .isSubsetOf(StepRefusal.NOT_BARE);
    } else {
      assertThat(bytes.refused()).as(wired.name() + " " + setUp).isEmpty();
    }
  }

  @Test
  void multiplexerGivesTheSameGradesThroughBytesAndIsNeverOverACeilingOnABoard() throws Exception {
    for (String setUp : STORY.keySet()) {
      compare(FixtureMaps.photoRelay(MAP), setUp);
    }
  }

  @Test
  void matrixWithSenseWiresGivesTheSameGradesThroughBytesAndIsNeverOverACeilingOnABoard()
      throws Exception {
    compare(FixtureMaps.fourBus(MAP), "interposer-on-lower");
  }
}
