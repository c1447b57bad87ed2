package org.jointwalk.pass;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Job;
import org.jointwalk.job.JobLogException;
import org.jointwalk.job.Logged;
import org.jointwalk.job.Seen;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class ResumeTest {

  private static final PadMap MAP = Ring.of(48, 2, 1);
  private static final String SET_UP = "interposer-on-lower";

  static Rig rig(Switching switching, Defects defects) {
    return new Rig(MAP, SET_UP, Instruments.ideal(switching), defects);
  }

  private static List<Event> events(Rig rig) {
    return rig.log().read(Rig.JOB).stream().map(Logged::event).toList();
  }

  /** Faults that take several seatings, several scans each, and a bridge to look for. */
  static Defects damage() {
    List<String> signals =
        MAP.positions().keySet().stream()
            .filter(p -> MAP.netAt(p, Side.LOWER).role() == Role.SIGNAL)
            .filter(p -> MAP.netAt(p, Side.LOWER).dcPath())
            .toList();
    String open = signals.get(0);
    for (String a : signals) {
      for (String b : signals) {
        if (a.compareTo(b) < 0
            && !a.equals(open)
            && !b.equals(open)
            && !MAP.position(a).lowerNet().equals(MAP.position(b).lowerNet())
            && MAP.position(a).distanceMm(MAP.position(b)) < 1.1 * Ring.PITCH_MM) {
          return Defects.NONE
              .with(new Component.Joint(Side.LOWER, open), new Condition.Open())
              .with(new Component.Via("N013"), new Condition.High(new Ohms(7)))
              .with(Component.Bridge.between(Side.LOWER, a, b), new Condition.Bridged(new Ohms(2)));
        }
      }
    }
    throw new AssertionError("no two signals lie side by side");
  }

  @ParameterizedTest
  @EnumSource(
      value = Switching.class,
      names = {"MULTIPLEXER", "MATRIX"})
  void aPassThatStoppedAfterAnyEventEndsWithTheSameFindings(Switching switching) throws Exception {
    Rig whole = rig(switching, damage());
    Findings findings = whole.run().findings();
    List<Event> events = events(whole);
    assertThat(findings.bridges()).hasSize(1);
    assertThat(events.stream().filter(Event.Seated.class::isInstance).count()).isGreaterThan(1);
    for (int kept = 3; kept < events.size(); kept++) {
      List<Event> before = events.subList(0, kept);
      Rig rig = rig(switching, damage());
      rig.remember(before);
      long seatings = before.stream().filter(Event.Seated.class::isInstance).count();
      for (long s = 1; s < seatings; s++) {
        rig.fixture().reseat();
      }
      Outcome outcome = rig.resume();
      assertThat(outcome.pass()).isEqualTo(1);
      assertThat(outcome.findings())
          .as("after %d of %d events", kept, events.size())
          .isEqualTo(findings);
      assertThat(events(rig)).as("after %d events", kept).startsWith(before.toArray(new Event[0]));
    }
  }

  @Test
  void aPassThatIsStoppedAfterEveryBatchEndsAsOneThatIsNot() {
    Trials.of(
        20,
        random -> {
          Switching switching = random.nextBoolean() ? Switching.MATRIX : Switching.MULTIPLEXER;
          Defects defects = Damage.draw(MAP, SetUp.named(SET_UP).orElseThrow(), random);
          Findings findings = rig(switching, defects).run().findings();
          Rig rig = rig(switching, defects);
          int stops = 0;
          while (stops < 1000) {
            rig.fixture().stopAfter(1 + random.nextInt(3));
            try {
              assertThat(rig.resume().findings()).isEqualTo(findings);
              break;
            } catch (PassException.Interrupted e) {
              stops++;
            }
          }
          assertThat(stops).isPositive();
        });
  }

  /** Another seating reads what the first did not come to; the same is found. */
  @Test
  void aPassThatGoesOnInAnotherSeatingFindsTheSame() throws Exception {
    Rig whole = rig(Switching.MULTIPLEXER, damage());
    Findings findings = whole.run().findings();
    List<Event> events = events(whole);
    int firstSeating =
        events.indexOf(
            events.stream()
                .filter(e -> e instanceof Event.Seated s && s.seating().number() == 2)
                .findFirst()
                .orElseThrow());
    for (int kept = 4; kept < firstSeating; kept++) {
      Rig rig = rig(Switching.MULTIPLEXER, damage());
      rig.remember(events.subList(0, kept));
      rig.fixture().reseat();
      Findings resumed = rig.resume().findings();
      assertThat(resumed.counts()).as("after %d events", kept).isEqualTo(findings.counts());
      assertThat(pairs(resumed)).isEqualTo(pairs(findings));
    }
  }

  private static Set<String> pairs(Findings findings) {
    return findings.bridges().stream().map(b -> b.a() + "-" + b.b()).collect(Collectors.toSet());
  }

  private static Rig interrupted() {
    Rig rig = rig(Switching.MULTIPLEXER, Defects.NONE);
    rig.fixture().stopAfter(3);
    assertThatThrownBy(rig::run)
        .isInstanceOf(PassException.Interrupted.class)
        .hasMessageContainingAll("Stopped after", "--resume");
    rig.fixture().stopAfter(Integer.MAX_VALUE);
    return rig;
  }

  @Test
  void onlyWhenAskedForIsAnInterruptedPassGoneOnWith() throws Exception {
    Rig rig = interrupted();
    assertThat(rig.run(false).pass()).isEqualTo(2);
    Rig other = interrupted();
    assertThat(other.resume().pass()).isEqualTo(1);
    assertThat(other.resume().pass()).isEqualTo(2);
  }

  @Test
  void workOnThePartsEndsAnInterruptedPass() throws Exception {
    Rig rig = interrupted();
    rig.append(new Event.Done(new Action.Reball(Side.LOWER, List.of("N001")), "ab"));
    assertThat(rig.resume().pass()).isEqualTo(2);
    Rig noted = interrupted();
    noted.append(new Event.Noted("smells of the sea", "ab"));
    assertThat(noted.resume().pass()).isEqualTo(1);
  }

  /** What is seen at the microscope meanwhile takes entries of the same job. */
  @Test
  void observationsMadeDuringAPassStandBetweenItsBatchesAndStopNothing() throws Exception {
    Findings findings = rig(Switching.MULTIPLEXER, damage()).run().findings();
    Rig rig = rig(Switching.MULTIPLEXER, damage());
    rig.whenRead(
        () -> {
          rig.append(new Event.Noted("smells of the sea", "ab"));
          rig.append(new Event.Clamped(WorksClamped.SOMETIMES, "ab"));
          rig.append(new Event.Looked(new Seen(Side.LOWER, "N001", Seen.Look.DRY), "ab"));
        });
    assertThat(rig.run().findings()).isEqualTo(findings);
    long batches = events(rig).stream().filter(Event.BatchKept.class::isInstance).count();
    assertThat(events(rig).stream().filter(Event.Noted.class::isInstance)).hasSize((int) batches);
    assertThat(Job.fold(Rig.JOB, rig.log().read(Rig.JOB)).passes()).hasSize(1);
  }

  @Test
  void workOnThePartsOrAnotherPassMeanwhileStopsAPassAndLosesNothing() {
    for (Event meanwhile :
        List.of(
            new Event.Done(new Action.Reball(Side.LOWER, List.of("N001")), "ab"),
            new Event.Closed("ab"))) {
      Rig rig = rig(Switching.MULTIPLEXER, damage());
      int[] batches = {0};
      rig.whenRead(
          () -> {
            if (++batches[0] == 3) {
              rig.append(meanwhile);
            }
          });
      assertThatThrownBy(rig::run)
          .isInstanceOf(JobLogException.Overtaken.class)
          .hasMessageContaining("let only one program work on a job");
      assertThat(events(rig).stream().filter(Event.BatchKept.class::isInstance)).hasSize(3);
      assertThat(events(rig)).endsWith(meanwhile);
    }
  }

  @Test
  void anotherMapFixtureOrSetUpIsAnotherPass() throws Exception {
    List<UnaryOperator<Event.PassBegun>> others =
        List.of(
            b -> begun(b, "lower-board", b.variant(), b.padMap(), b.fixtureMap(), b.capabilities()),
            b -> begun(b, b.setUp(), "other", b.padMap(), b.fixtureMap(), b.capabilities()),
            b -> begun(b, b.setUp(), b.variant(), "other", b.fixtureMap(), b.capabilities()),
            b -> begun(b, b.setUp(), b.variant(), b.padMap(), "other", b.capabilities()),
            b ->
                begun(
                    b,
                    b.setUp(),
                    b.variant(),
                    b.padMap(),
                    b.fixtureMap(),
                    Instruments.ideal(Switching.HAND)));
    for (UnaryOperator<Event.PassBegun> other : others) {
      Rig rig = interrupted();
      rig.remember(
          events(rig).stream()
              .map(e -> e instanceof Event.PassBegun b ? other.apply(b) : e)
              .toList());
      assertThat(rig.resume().pass()).isEqualTo(2);
    }
  }

  private static Event.PassBegun begun(
      Event.PassBegun b,
      String setUp,
      String variant,
      String padMap,
      String fixtureMap,
      Capabilities capabilities) {
    return new Event.PassBegun(
        b.pass(), setUp, b.purpose(), variant, padMap, fixtureMap, capabilities, b.by());
  }

  @Test
  void theOutcomeCountsTheWholePassAndTheCommitsOfThisRun() throws Exception {
    Rig whole = rig(Switching.MULTIPLEXER, Defects.NONE);
    Outcome once = whole.run();
    Job job = Job.fold(Rig.JOB, whole.log().read(Rig.JOB));
    assertThat(once.readings()).isEqualTo(job.passes().get(0).measurements().size());
    assertThat(once.closures()).isEqualTo(2L * once.readings());
    assertThat(once.batches())
        .isEqualTo((int) events(whole).stream().filter(Event.BatchKept.class::isInstance).count());
    assertThat(once.commits()).isEqualTo(events(whole).size() - 2);
    assertThat(once.seating()).isEqualTo(1);
    Rig rig = interrupted();
    int before = events(rig).size();
    Outcome resumed = rig.resume();
    assertThat(resumed.readings()).isEqualTo(once.readings());
    assertThat(resumed.commits()).isEqualTo(events(rig).size() - before);
    assertThat(resumed.deviceSeconds()).isEqualTo(0.004 * once.readings());
  }
}
