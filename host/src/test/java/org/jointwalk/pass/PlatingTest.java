package org.jointwalk.pass;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.List;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Intake;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Question.Need;
import org.jointwalk.joblog.MemoryJobLog;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.saltmarsh.Specimens;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;
import org.junit.jupiter.api.Test;

/** Vias of the bare interposer that lie beside edge plating, on the fixtures of the demo. */
class PlatingTest {

  private static final PadMap MAP = SaltmarshS2.map();
  private static final List<String> PLATED =
      MAP.interposers().get(0).ties().stream()
          .filter(t -> t.where() == Tie.Where.EDGE)
          .flatMap(t -> t.positions().stream())
          .toList();

  private static Findings findings(FixtureMap fixtureMap, Defects defects) throws Exception {
    JobLog log = new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC);
    List<Action> actions = List.of(new Action.Split(Side.UPPER), new Action.Lift());
    Intake intake = new Intake(MAP.device(), "", "", List.of(), "");
    log.append(
        "J-0001",
        0,
        List.of(
            new Event.Opened(intake, "ab"),
            new Event.Done(actions.get(0), "ab"),
            new Event.Done(actions.get(1), "ab")));
    SetUp bare = SetUp.named("interposer").orElseThrow();
    VirtualFixture fixture =
        new VirtualFixture(
            MAP, Specimens.stack(MAP, 5, defects), fixtureMap, VirtualFixture.Conditions.CALM);
    fixture.clamp(bare, actions);
    Operator operator =
        new Operator() {
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
    Request request =
        new Request(
            "J-0001",
            new Assembly(MAP, MAP.interposers().get(0), bare),
            fixtureMap.contacts(),
            Purpose.DIAGNOSIS,
            "p",
            "f",
            "ab",
            "test",
            false);
    return new Pass(fixture, log, operator, request).run().findings();
  }

  @Test
  void twoTipsSeeAViaPastItsPlating() throws Exception {
    String broken = PLATED.get(7);
    Findings findings =
        findings(
            FixtureMaps.fourBus(MAP),
            Defects.NONE.with(new Component.Via(broken), new Condition.Open()));

    assertThat(findings.graded(Grade.MASKED)).isEmpty();
    assertThat(findings.graded(Grade.OPEN)).extracting(Finding::position).containsExactly(broken);
    assertThat(findings.graded(Grade.OPEN)).allMatch(Finding::confirmed);
    assertThat(findings.bridges()).isEmpty();
  }

  /** 20 milliohm beside 4 read 3.3: less than the plating alone, more than with a good via. */
  @Test
  void aViaThatStillConductsIsHighAndNotOpen() throws Exception {
    String worn = PLATED.get(7);
    Findings findings =
        findings(
            FixtureMaps.fourBus(MAP),
            Defects.NONE.with(new Component.Via(worn), new Condition.High(new Ohms(0.02))));

    assertThat(findings.graded(Grade.OPEN)).isEmpty();
    assertThat(findings.graded(Grade.HIGH)).extracting(Finding::position).containsExactly(worn);
  }

  @Test
  void oneTipSeesThePlatingOnly() throws Exception {
    Findings findings = findings(FixtureMaps.relayMatrix(MAP), Defects.NONE);

    assertThat(findings.graded(Grade.MASKED))
        .extracting(Finding::position)
        .containsExactlyInAnyOrderElementsOf(PLATED);
    assertThat(findings.anyFault()).isFalse();
  }
}
