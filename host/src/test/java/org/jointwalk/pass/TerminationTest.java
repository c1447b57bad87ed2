package org.jointwalk.pass;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.jointwalk.trial.Readings.over;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import java.util.random.RandomGenerator;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Event;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.JobLogException;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.SmallMap;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** A pass ends, whatever it meets. */
@Timeout(60)
class TerminationTest {

  private static final int MOST_SEATINGS = 4;
  private static final Capabilities MUX = Instruments.ideal(Switching.MULTIPLEXER);
  private static final Capabilities MATRIX = Instruments.ideal(Switching.MATRIX);
  private static final PadMap MAP = Ring.of(48, 2, 1);

  /** A pad that is alone on its net, and read from ground. */
  private static final String SINGLE = single();

  private static String single() {
    Assembly assembly = SmallMap.assembly(MAP, "interposer-on-lower");
    for (String id : MAP.positions().keySet()) {
      Node home = assembly.home(over(id));
      if (MAP.netAt(id, Side.LOWER).role() == Role.SIGNAL
          && MAP.netAt(id, Side.LOWER).dcPath()
          && assembly.contacts().stream().filter(c -> assembly.home(c).equals(home)).count() == 1) {
        return id;
      }
    }
    throw new AssertionError("no signal has one pad and no point");
  }

  private static Rig onLower(Capabilities capabilities, Defects defects) {
    return new Rig(MAP, "interposer-on-lower", capabilities, defects);
  }

  private static Findings ended(Rig rig) throws Exception {
    Findings findings = rig.run().findings();
    assertThat(rig.asked()).hasSizeLessThan(MOST_SEATINGS);
    assertThat(rig.fixture().taken()).hasSizeLessThan(20_000);
    return findings;
  }

  private static Defects every(Condition condition) {
    Defects defects = Defects.NONE;
    for (String id : MAP.positions().keySet()) {
      defects = defects.with(new Component.Joint(Side.LOWER, id), condition);
    }
    return defects;
  }

  // Nothing conducts

  @Test
  void whenNoGroundLandsAtAllNothingIsCalledOpen() throws Exception {
    Rig rig = onLower(MUX, Defects.NONE);
    rig.fixture().miss((seating, c) -> rig.assembly().isGround(c));
    Findings findings = ended(rig);
    assertThat(rig.asked()).hasSize(MOST_SEATINGS - 1).allMatch(List::isEmpty);
    assertThat(findings.positions())
        .allMatch(
            f -> Set.of(Grade.NOT_TESTED, Grade.NOT_CONTACTED, Grade.MASKED).contains(f.grade()));
    assertThat(findings.graded(Grade.NOT_CONTACTED)).isNotEmpty();
    assertThat(findings.positions()).noneMatch(Finding::confirmed);
    assertThat(rig.fixture().taken())
        .allMatch(t -> t.step().kind() == Kind.ALL_OPEN || t.step().kind() == Kind.LOW_LEVEL);
  }

  @Test
  void aPlateThatHangsInTheAirOnceIsReadWholeAfterwards() throws Exception {
    Rig rig = onLower(MUX, Defects.NONE);
    rig.fixture().miss((seating, c) -> seating == 1 && rig.assembly().isGround(c));
    Findings findings = ended(rig);
    Findings sound = onLower(MUX, Defects.NONE).run().findings();
    assertThat(findings.counts()).isEqualTo(sound.counts());
    assertThat(rig.asked()).hasSize(1);
  }

  @Test
  void aStackOfWhichEveryJointIsOpenEndsWithoutASingleGoodOne() throws Exception {
    Findings findings = ended(onLower(MUX, every(new Condition.Open())));
    assertThat(findings.positions()).noneMatch(f -> f.grade().isConnected());
  }

  @Test
  void aStackOfWhichEveryJointIsHighIsHigh() throws Exception {
    Findings findings = ended(onLower(MATRIX, every(new Condition.High(new Ohms(9)))));
    assertThat(findings.graded(Grade.GOOD)).isEmpty();
    assertThat(findings.graded(Grade.HIGH)).isNotEmpty().allMatch(Finding::confirmed);
  }

  @Test
  void nothingAtAllConducts() throws Exception {
    for (String setUp : SetUp.all().stream().map(SetUp::name).toList()) {
      Rig rig = new Rig(MAP, setUp, MATRIX, Defects.NONE);
      rig.fixture().miss((seating, c) -> true);
      Findings findings = ended(rig);
      assertThat(findings.positions()).noneMatch(f -> f.grade().isConnected());
      if (!rig.assembly().setUp().bare()) {
        assertThat(findings.positions()).noneMatch(Finding::confirmed);
      }
    }
  }

  // The plate sits badly

  @Test
  void aPlateThatIsTiltedOnceCostsASeatingAndNothingElse() throws Exception {
    for (Capabilities capabilities : List.of(MUX, MATRIX)) {
      Rig rig = onLower(capabilities, Defects.NONE);
      rig.fixture().miss((seating, c) -> seating == 1 && left(rig, c));
      Findings findings = ended(rig);
      assertThat(findings.anyFault()).isFalse();
      assertThat(findings.counts())
          .isEqualTo(onLower(capabilities, Defects.NONE).run().findings().counts());
    }
  }

  /** Half the ring lacks a path four times: neither open nor good. */
  @Test
  void aPlateThatIsTiltedForEverConfirmsOnlyWhatItCannotTellFromDamage() throws Exception {
    Rig rig = onLower(MUX, Defects.NONE);
    rig.fixture().miss((seating, c) -> left(rig, c));
    Findings findings = ended(rig);
    for (Finding finding : findings.positions()) {
      Contact contact = over(finding.position());
      if (left(rig, contact)) {
        assertThat(finding.grade().isConnected()).as("%s", finding).isFalse();
      } else {
        assertThat(finding.grade()).as("%s", finding).isNotEqualTo(Grade.OPEN);
      }
    }
  }

  private static boolean left(Rig rig, Contact contact) {
    return contact instanceof Contact.Pad pad
        && rig.assembly().map().position(pad.position()).xMm() < 3;
  }

  @Test
  void anyPatternOfMissingContactsEnds() {
    Trials.of(
        60,
        random -> {
          String setUp =
              List.of("interposer-on-lower", "upper-board", "interposer", "joined")
                  .get(random.nextInt(4));
          Rig rig =
              new Rig(
                  Ring.of(48, 2, 1 + random.nextInt(5)),
                  setUp,
                  random.nextBoolean() ? MUX : MATRIX,
                  Defects.NONE);
          double share = random.nextDouble();
          long salt = random.nextLong();
          boolean forEver = random.nextBoolean();
          rig.fixture()
              .miss(
                  (seating, c) ->
                      Trials.random(salt ^ c.hashCode() * 31L ^ (forEver ? 0 : seating))
                              .nextDouble()
                          < share);
          ended(rig);
        });
  }

  // The fixture refuses

  @Test
  void aFixtureThatRefusesEveryStepTestsNothingAndSaysWhy() throws Exception {
    for (String setUp : SetUp.all().stream().map(SetUp::name).toList()) {
      Rig rig = new Rig(MAP, setUp, MATRIX, Defects.NONE);
      rig.fixture().refuse(step -> true);
      Findings findings = ended(rig);
      assertThat(findings.anyFault()).isFalse();
      assertThat(findings.positions()).noneMatch(f -> f.grade().isConnected());
      assertThat(rig.asked()).isEmpty();
      if (!rig.assembly().contacts().isEmpty()) {
        assertThat(rig.remarks())
            .anyMatch(r -> r.contains("refused") && r.contains("not this one"));
      }
    }
  }

  @Test
  void aFixtureThatRefusesAContactLeavesItAloneUntested() throws Exception {
    Rig rig = onLower(MUX, Defects.NONE);
    String id =
        MAP.positions().keySet().stream()
            .filter(p -> MAP.netAt(p, Side.LOWER).role() == Role.RAIL)
            .findFirst()
            .orElseThrow();
    Contact contact = over(id);
    rig.fixture().refuse(with(contact));
    Findings findings = ended(rig);
    assertThat(Rig.of(findings, id).grade()).isEqualTo(Grade.NOT_TESTED);
    assertThat(Rig.of(findings, id).reason()).isEqualTo("it was not read");
    Findings sound = onLower(MUX, Defects.NONE).run().findings();
    for (Finding finding : findings.positions()) {
      if (!finding.position().equals(id)) {
        assertThat(finding.grade()).isEqualTo(Rig.of(sound, finding.position()).grade());
      }
    }
  }

  private static Predicate<Step> with(Contact contact) {
    return step -> step.high().contains(contact) || step.low().contains(contact);
  }

  @Test
  void anyPatternOfRefusedStepsEnds() {
    Trials.of(
        60,
        random -> {
          Rig rig =
              new Rig(
                  Ring.of(48, 2, 1 + random.nextInt(5)),
                  "interposer-on-lower",
                  random.nextBoolean() ? MUX : MATRIX,
                  damage(random));
          double share = random.nextDouble();
          long salt = random.nextLong();
          rig.fixture().refuse(step -> Trials.random(salt ^ step.hashCode()).nextDouble() < share);
          ended(rig);
        });
  }

  private static Defects damage(RandomGenerator random) {
    return Damage.draw(MAP, SetUp.named("interposer-on-lower").orElseThrow(), random);
  }

  @Test
  void aFixtureThatLacksAnyRangeEnds() throws Exception {
    for (Kind kind : Kind.values()) {
      for (Kind other : Kind.values()) {
        Findings findings = ended(onLower(Instruments.without(MATRIX, kind, other), Defects.NONE));
        assertThat(findings.anyFault()).as("%s %s", kind, other).isFalse();
      }
    }
  }

  @Test
  void whatOneRangeCannotReadDoesNotKeepTheOthersFromTheRest() throws Exception {
    Rig rig = onLower(Instruments.without(MUX, Kind.JUNCTION), Defects.NONE);
    Findings findings = ended(rig);
    assertThat(Rig.of(findings, SINGLE).grade()).isEqualTo(Grade.NOT_TESTED);
    assertThat(findings.graded(Grade.GOOD)).isNotEmpty();
    assertThat(rig.fixture().taken()).anyMatch(t -> t.step().kind() == Kind.ISOLATION);
  }

  // Little boards

  @Test
  void boardsWithoutRailsWithoutSignalsAndWithOneGroundEnd() throws Exception {
    SmallMap ground = new SmallMap().net("GND", Role.GROUND);
    for (int i = 0; i < 5; i++) {
      ground.pad("G" + i, "GND");
    }
    Rig groundOnly = new Rig(ground.map(), "lower-board", MUX, Defects.NONE);
    assertThat(ended(groundOnly).graded(Grade.GOOD)).hasSize(5);
    SmallMap signals = new SmallMap().net("GND", Role.GROUND).net("S", Role.SIGNAL);
    signals.pad("G0", "GND").pad("G1", "GND").pad("G2", "GND").pad("S", "S");
    Defects open = Defects.NONE.with(new Component.Pad(Side.LOWER, "S"), new Condition.Open());
    Rig noRails = new Rig(signals.map(), "lower-board", MUX, open);
    Findings findings = ended(noRails);
    assertThat(Rig.of(findings, "S").grade()).isEqualTo(Grade.OPEN);
    assertThat(Rig.of(findings, "S").confirmed()).isTrue();
    SmallMap one = new SmallMap().net("GND", Role.GROUND).net("S", Role.SIGNAL);
    one.pad("G0", "GND").pad("S0", "S").pad("S1", "S");
    Rig oneGround = new Rig(one.map(), "lower-board", MUX, Defects.NONE);
    assertThat(ended(oneGround).positions()).allMatch(f -> f.grade() == Grade.NOT_TESTED);
    assertThat(oneGround.asked()).isEmpty();
    assertThat(oneGround.fixture().taken()).isEmpty();
    SmallMap light = new SmallMap().net("GND", Role.GROUND).net("VCC", Role.RAIL);
    light.pad("G0", "GND").pad("G1", "GND").pad("G2", "GND").pad("V", "VCC");
    Rig noLoad = new Rig(light.map(), "lower-board", MUX, Defects.NONE);
    assertThat(Rig.of(ended(noLoad), "V").grade()).isEqualTo(Grade.UNRESOLVED);
  }

  // The operator and the log

  @Test
  void aSeatingThatTheFixtureDidNotNoticeEndsThePass() throws Exception {
    Defects open = Defects.NONE.with(new Component.Joint(Side.LOWER, SINGLE), new Condition.Open());
    Rig rig = onLower(MUX, open);
    rig.withoutLidSwitch();
    Findings findings = ended(rig);
    assertThat(rig.asked()).hasSize(1);
    assertThat(rig.remarks()).anyMatch(r -> r.contains("did not see its lid open"));
    assertThat(findings.positions()).noneMatch(Finding::confirmed);
  }

  @Test
  void anOperatorWhoStopsHalfWayLeavesWhatHeConfirmed() throws Exception {
    for (int willing = 0; willing < MOST_SEATINGS; willing++) {
      Defects open =
          Defects.NONE.with(new Component.Joint(Side.LOWER, SINGLE), new Condition.Open());
      Rig rig = onLower(MUX, open);
      rig.seatAgainAtMost(willing);
      Finding finding = Rig.of(ended(rig), SINGLE);
      assertThat(finding.grade()).isEqualTo(Grade.OPEN);
      assertThat(finding.seatings()).isEqualTo(Math.min(3, willing + 1));
      assertThat(finding.confirmed()).isEqualTo(willing >= 2);
    }
  }

  /** A log that takes no more than so many events. */
  @Test
  void whatTheLogThrowsEndsThePassAndIsThrownOn() throws Exception {
    Rig whole = onLower(MUX, Defects.NONE);
    whole.run();
    int events = whole.log().read(Rig.JOB).size();
    for (int full = 3; full < events; full += 3) {
      Rig rig = onLower(MUX, Defects.NONE);
      rig.log(new FullLog(rig.log(), full));
      assertThatThrownBy(rig::run)
          .isInstanceOf(JobLogException.class)
          .hasMessage("the disk is full");
      assertThat(rig.log().read(Rig.JOB)).hasSize(full);
    }
  }

  @Test
  void whatTheFixtureThrowsIsThrownOnAndThePassStaysOpen() {
    Rig rig = onLower(MUX, Defects.NONE);
    Fixture broken =
        new Fixture() {
          @Override
          public Capabilities capabilities() {
            return rig.fixture().capabilities();
          }

          @Override
          public Clamping clamping() {
            return rig.fixture().clamping();
          }

          @Override
          public void run(Scan scan, Keep keep) throws FixtureException {
            throw new FixtureException.Unreachable("no answer");
          }

          @Override
          public void stop() {}
        };
    assertThatThrownBy(() -> rig.run(broken, false))
        .isInstanceOf(FixtureException.Unreachable.class);
    assertThat(rig.log().read(Rig.JOB).get(rig.log().read(Rig.JOB).size() - 1).event())
        .isInstanceOf(Event.ScanPlanned.class);
  }

  @Test
  void aLidOpenedBetweenTwoScansIsANewSeating() throws Exception {
    Rig rig = onLower(MUX, Defects.NONE);
    List<Integer> seen = new ArrayList<>();
    rig.whenRead(
        () -> {
          if (seen.size() == 4) {
            rig.fixture().reseat();
          }
          seen.add(rig.fixture().seating());
        });
    Findings findings = ended(rig);
    assertThat(rig.asked()).isEmpty();
    assertThat(findings.counts()).isEqualTo(onLower(MUX, Defects.NONE).run().findings().counts());
    assertThat(rig.log().read(Rig.JOB).stream().filter(l -> l.event() instanceof Event.Seated))
        .hasSize(2);
  }
}
