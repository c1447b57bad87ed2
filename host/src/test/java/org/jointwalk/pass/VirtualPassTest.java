package org.jointwalk.pass;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.job.Action;
import org.jointwalk.job.BoardFinding;
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
import org.jointwalk.saltmarsh.Stacks;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Passes over the stacks of the Saltmarsh S2 with the noise of real builds, simulated. */
class VirtualPassTest {

  private static final PadMap MAP = SaltmarshS2.map();

  enum Build {
    PHOTO(FixtureMaps::photoRelay),
    MATRIX(FixtureMaps::relayMatrix),
    FOUR(FixtureMaps::fourBus),
    ANALOG(FixtureMaps::analogSwitch);

    private final FixtureMap fixture;

    Build(Function<PadMap, FixtureMap> of) {
      this.fixture = of.apply(MAP);
    }
  }

  private static Findings run(Build build, Specimen stack, String setUp) throws Exception {
    VirtualFixture fixture =
        new VirtualFixture(MAP, stack, build.fixture, VirtualFixture.Conditions.CALM);
    SetUp inside = SetUp.named(setUp).orElseThrow();
    List<Action> actions = Rig.before(inside);
    fixture.clamp(inside, actions);
    JobLog log = new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC);
    List<Event> events = new ArrayList<>();
    events.add(new Event.Opened(new Intake(MAP.device(), "", "bent", List.of(), ""), "ab"));
    actions.forEach(a -> events.add(new Event.Done(a, "ab")));
    log.append(Rig.JOB, 0, events);
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
    return new Pass(
            fixture,
            log,
            operator,
            new Request(
                Rig.JOB,
                new Assembly(MAP, MAP.interposers().get(0), inside),
                build.fixture.contacts(),
                Purpose.DIAGNOSIS,
                "p",
                "f",
                "ab",
                "test",
                false))
        .run()
        .findings();
  }

  private static Specimen stack(Defects defects) {
    return new Specimen("thin", 21, defects, List.of(), List.of());
  }

  private static Specimen named(String name) {
    return Stacks.all().getOrDefault(name, stack(Defects.NONE));
  }

  @ParameterizedTest
  @EnumSource(Build.class)
  void aGoodStackShowsNoFaultInAnySetUp(Build build) throws Exception {
    for (SetUp setUp : SetUp.all()) {
      Findings findings = run(build, named("saltmarsh-good"), setUp.name());
      assertThat(findings.anyFault()).as("%s", setUp.name()).isFalse();
      assertThat(findings.graded(Grade.UNDECIDED)).as("%s", setUp.name()).isEmpty();
    }
  }

  /** It puts the pull-ups of signals on ground, and with them two more rails. */
  @ParameterizedTest
  @EnumSource(Build.class)
  void aShortedRailIsTheOnlyFaultOfItsStack(Build build) throws Exception {
    Findings findings = run(build, named("saltmarsh-shorted"), "interposer-on-lower");
    assertThat(findings.boards()).extracting(b -> b.net().name()).containsExactly("RAIL_DAWN");
    assertThat(findings.boards())
        .extracting(BoardFinding::fault)
        .containsExactly(BoardFinding.Fault.SHORTED);
    assertThat(findings.bridges()).isEmpty();
    assertThat(findings.positions()).noneMatch(f -> f.grade().isFault());
  }

  /** Residue of tens of kilohm beside a junction makes its drop grow, and is no high joint. */
  @ParameterizedTest
  @EnumSource(Build.class)
  void residueMakesNoHighJointAndHidesNoOpenOne(Build build) throws Exception {
    Findings findings = run(build, named("saltmarsh-wet"), "interposer-on-lower");
    assertThat(findings.positions())
        .filteredOn(f -> f.grade().isFault())
        .extracting(Finding::position)
        .containsExactly("N005");
    assertThat(Rig.of(findings, "N005").grade()).isEqualTo(Grade.OPEN);
  }

  /** A source that runs out of voltage has met a high joint, not an open or a good one. */
  @ParameterizedTest
  @EnumSource(Build.class)
  void aJointOfAKilohmOnALoneSignalIsHigh(Build build) throws Exception {
    Findings findings =
        run(
            build,
            stack(
                Defects.NONE.with(
                    new Component.Joint(Side.LOWER, "N110"), new Condition.High(new Ohms(1000)))),
            "interposer-on-lower");
    assertThat(Rig.of(findings, "N110").grade()).isEqualTo(Grade.HIGH);
    assertThat(Rig.of(findings, "N110").confirmed()).isTrue();
    assertThat(Rig.of(findings, "N110").ohms().orElseThrow().value()).isBetween(700.0, 1300.0);
  }

  @Test
  void theDroppedStackShowsItsSevenOpensAndItsWeakJoint() throws Exception {
    Findings findings = run(Build.PHOTO, Stacks.dropped(), "interposer-on-lower");
    assertThat(findings.graded(Grade.OPEN))
        .extracting(Finding::position)
        .containsExactly("N122", "N128", "N129", "N131", "N132", "N133", "N135");
    assertThat(findings.graded(Grade.OPEN)).allMatch(Finding::confirmed);
    assertThat(findings.graded(Grade.HIGH)).extracting(Finding::position).containsExactly("N149");
    assertThat(Rig.of(findings, "N149").ohms().orElseThrow().value()).isBetween(4.0, 4.4);
  }
}
