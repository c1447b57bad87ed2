package org.jointwalk.pass;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
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
import org.jointwalk.quantity.Volts;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.Test;

class PassTest {

  private static final PadMap MAP = SaltmarshS2.unlearned();
  private static final Condition OPEN = new Condition.Open();

  private final FixtureMap fixtureMap = FixtureMaps.photoRelay(MAP);
  private JobLog log = new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC);
  private final List<String> remarks = new ArrayList<>();

  private static Assembly assembly(String setUp) {
    return new Assembly(MAP, MAP.interposers().get(0), SetUp.named(setUp).orElseThrow());
  }

  private void open(Action... actions) {
    List<Event> events = new ArrayList<>();
    events.add(
        new Event.Opened(new Intake(MAP.device(), "", "dropped", List.of("radio"), ""), "ab"));
    for (Action action : actions) {
      events.add(new Event.Done(action, "ab"));
    }
    log.append("J-0001", 0, events);
  }

  private Pass pass(PlainFixture fixture, Assembly assembly, boolean resume) {
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
          public void remark(String text) {
            remarks.add(text);
          }
        };
    return new Pass(
        fixture,
        log,
        operator,
        new Request(
            "J-0001",
            assembly,
            fixtureMap.contacts(),
            Purpose.DIAGNOSIS,
            "p",
            "f",
            "ab",
            "test",
            resume));
  }

  private Findings run(Defects defects, String... missing) throws Exception {
    open(new Action.Split(Side.UPPER));
    Assembly assembly = assembly("interposer-on-lower");
    PlainFixture fixture = new PlainFixture(assembly, fixtureMap.capabilities(), defects);
    for (String id : missing) {
      fixture.miss(1, new Contact.Pad(Plate.OVER, id));
    }
    return pass(fixture, assembly, false).run().findings();
  }

  private static Finding of(Findings findings, String position) {
    return findings.positions().stream()
        .filter(f -> f.position().equals(position))
        .findFirst()
        .orElseThrow();
  }

  private static List<String> untied(Role role, int padsOfNet) {
    Assembly assembly = assembly("interposer-on-lower");
    var pads = MAP.padsByNet(Side.LOWER);
    return MAP.positions().values().stream()
        .filter(p -> MAP.netAt(p.id(), Side.LOWER).role() == role)
        .filter(p -> MAP.netAt(p.id(), Side.LOWER).dcPath())
        .filter(p -> pads.getOrDefault(p.net(Side.LOWER), List.of()).size() == padsOfNet)
        .filter(
            p ->
                assembly.inBranches(p.id()).containsAll(assembly.present(p.id()))
                    && assembly.contacts().stream()
                        .filter(Contact.Point.class::isInstance)
                        .noneMatch(
                            c ->
                                assembly
                                    .home(c)
                                    .equals(assembly.home(new Contact.Pad(Plate.OVER, p.id())))))
        .map(p -> p.id())
        .toList();
  }

  @Test
  void soundStackShowsNoFaultAndEveryPositionIsCounted() throws Exception {
    Findings findings = run(Defects.NONE);
    assertThat(findings.anyFault()).isFalse();
    assertThat(findings.positions()).hasSize(MAP.positions().size());
    assertThat(findings.graded(Grade.UNDECIDED)).isEmpty();
    assertThat(findings.graded(Grade.GOOD)).isNotEmpty();
    assertThat(findings.graded(Grade.MASKED)).isNotEmpty();
  }

  @Test
  void openJointOfALonePadIsFoundAndConfirmed() throws Exception {
    String id = untied(Role.SIGNAL, 1).get(3);
    Findings findings = run(Defects.NONE.with(new Component.Joint(Side.LOWER, id), OPEN));
    assertThat(of(findings, id).grade()).isEqualTo(Grade.OPEN);
    assertThat(of(findings, id).confirmed()).isTrue();
    assertThat(findings.graded(Grade.OPEN)).hasSize(1);
  }

  @Test
  void openJointOfAPairIsToldFromItsPartner() throws Exception {
    String id = untied(Role.SIGNAL, 2).get(0);
    Findings findings = run(Defects.NONE.with(new Component.Joint(Side.LOWER, id), OPEN));
    assertThat(findings.graded(Grade.OPEN)).extracting(Finding::position).containsExactly(id);
  }

  @Test
  void everyOpenOfALargeRailIsFound() throws Exception {
    List<String> ids = untied(Role.RAIL, 6).subList(0, 2);
    Defects defects = Defects.NONE;
    for (String id : ids) {
      defects = defects.with(new Component.Via(id), OPEN);
    }
    assertThat(run(defects).graded(Grade.OPEN)).extracting(Finding::position).isEqualTo(ids);
  }

  @Test
  void probeThatMissedOnceIsNotAnOpen() throws Exception {
    String id = untied(Role.SIGNAL, 1).get(5);
    Findings findings = run(Defects.NONE, id);
    assertThat(findings.anyFault()).isFalse();
    assertThat(of(findings, id).seatings()).isEqualTo(1);
    assertThat(of(findings, id).reason()).contains("was the probe, or it comes and goes");
  }

  @Test
  void highJointOfARailIsHighAndItsNeighboursAreGood() throws Exception {
    String id = untied(Role.RAIL, 6).get(1);
    Findings findings =
        run(
            Defects.NONE.with(
                new Component.Joint(Side.LOWER, id), new Condition.High(new Ohms(4))));
    assertThat(findings.graded(Grade.HIGH)).extracting(Finding::position).containsExactly(id);
    assertThat(of(findings, id).ohms().orElseThrow().value()).isBetween(3.8, 4.2);
    assertThat(of(findings, id).confirmed()).isTrue();
  }

  @Test
  void bridgeBetweenSignalsIsFoundWhereItIs() throws Exception {
    List<String> singles = untied(Role.SIGNAL, 1);
    String a = "";
    String b = "";
    for (String p : singles) {
      for (String q : singles) {
        if (p.compareTo(q) < 0
            && MAP.position(p).distanceMm(MAP.position(q)) < 0.61
            && a.isEmpty()) {
          a = p;
          b = q;
        }
      }
    }
    Findings findings =
        run(
            Defects.NONE.with(
                Component.Bridge.between(Side.LOWER, a, b), new Condition.Bridged(new Ohms(0.02))));
    assertThat(findings.bridges()).hasSize(1);
    assertThat(findings.bridges().get(0).a()).isEqualTo(a);
    assertThat(findings.bridges().get(0).b()).isEqualTo(b);
    assertThat(of(findings, a).grade()).isEqualTo(Grade.BRIDGED);
  }

  @Test
  void liveRailStopsThePassBeforeAnythingIsSourced() {
    open(new Action.Split(Side.UPPER));
    Assembly assembly = assembly("interposer-on-lower");
    PlainFixture fixture = new PlainFixture(assembly, fixtureMap.capabilities(), Defects.NONE);
    String rail = untied(Role.RAIL, 6).get(0);
    for (Contact c : assembly.contacts()) {
      if (assembly.home(c).equals(assembly.home(new Contact.Pad(Plate.OVER, rail)))) {
        fixture.charge(c, new Volts(1.1));
      }
    }
    assertThatThrownBy(() -> pass(fixture, assembly, false).run())
        .isInstanceOf(PassException.Unsafe.class)
        .hasMessageContaining("1.10 V")
        .hasMessageContaining("battery");
  }

  @Test
  void setUpThatCannotBeThereYetIsRefusedWithTheMissingAction() {
    open();
    Assembly assembly = assembly("interposer-on-lower");
    PlainFixture fixture = new PlainFixture(assembly, fixtureMap.capabilities(), Defects.NONE);
    assertThatThrownBy(() -> pass(fixture, assembly, false).run())
        .isInstanceOf(PassException.Impossible.class)
        .hasMessageContaining("job action split --let-go upper");
  }

  @Test
  void resumedPassFinishesTheStoredScanAndGradesTheSame() throws Exception {
    open(new Action.Split(Side.UPPER));
    Assembly assembly = assembly("interposer-on-lower");
    String id = untied(Role.SIGNAL, 1).get(3);
    Defects defects = Defects.NONE.with(new Component.Joint(Side.LOWER, id), OPEN);
    PlainFixture fixture = new PlainFixture(assembly, fixtureMap.capabilities(), defects);
    fixture.stopAfter(17);
    assertThatThrownBy(() -> pass(fixture, assembly, false).run())
        .isInstanceOf(PassException.Interrupted.class);
    fixture.stopAfter(Integer.MAX_VALUE);
    Outcome resumed = pass(fixture, assembly, true).run();
    assertThat(resumed.pass()).isEqualTo(1);

    log = new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC);
    assertThat(resumed.findings()).isEqualTo(run(defects));
  }
}
