package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.assertj.core.data.Percentage;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Action;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class TruthTest {

  private static final PadMap MAP = Rings.map(20);
  private static final Component GROUND_JOINT = new Component.Joint(Side.LOWER, Rings.id(10));
  private static final Component SIGNAL_JOINT = new Component.Joint(Side.LOWER, Rings.id(7));

  private static Truth truth(Kelvin kelvin, Defects defects) {
    return truth(kelvin, "interposer-on-lower", defects, new Action.Split(Side.UPPER));
  }

  private static Truth truth(Kelvin kelvin, String setUp, Defects defects, Action... actions) {
    return truth(4, kelvin, setUp, defects, actions);
  }

  private static Truth truth(
      long seed, Kelvin kelvin, String setUp, Defects defects, Action... actions) {
    VirtualFixture fixture =
        new VirtualFixture(
            MAP,
            Rings.specimen(seed, defects),
            Rings.fixture(MAP, kelvin, Switching.MULTIPLEXER),
            VirtualFixture.Conditions.CALM);
    fixture.clamp(SetUp.named(setUp).orElseThrow(), List.of(actions));
    return fixture.truth();
  }

  private static Defects one(Component component, Condition condition) {
    return Defects.NONE.with(component, condition);
  }

  @Test
  void resistanceIsTheSameBothWaysAndGrowsByWhatIsAdded() {
    Truth sound = truth(Kelvin.TAIL, Defects.NONE);
    double before = sound.ohms(Rings.over(3), Rings.over(4));
    Truth high =
        sound.with(new Component.Joint(Side.LOWER, Rings.id(3)), new Condition.High(new Ohms(1.5)));

    assertThat(before).isCloseTo(sound.ohms(Rings.over(4), Rings.over(3)), within(1e-15));
    assertThat(high.ohms(Rings.over(3), Rings.over(4)) - before)
        .isCloseTo(1.5, Percentage.withPercentage(1e-9));
  }

  @Test
  void repairUndoesAFault() {
    Truth sound = truth(Kelvin.TAIL, Defects.NONE);
    Truth again = sound.with(GROUND_JOINT, new Condition.Open()).without(GROUND_JOINT);

    assertThat(again.ohms(Rings.over(10), Rings.over(2)))
        .isEqualTo(sound.ohms(Rings.over(10), Rings.over(2)));
  }

  @Test
  void contactThatTouchesNothingIsApart() {
    assertThat(truth(Kelvin.TAIL, Defects.NONE).ohms(Rings.under(3), Rings.over(4))).isInfinite();
  }

  @ParameterizedTest
  @EnumSource(Kelvin.class)
  void readingHoldsWhatTheSenseWiresLeaveIn(Kelvin kelvin) {
    Truth truth = truth(kelvin, Defects.NONE);
    Step step =
        new Step(
            Kind.LOW_LEVEL,
            List.of(Rings.over(3)),
            List.of(Rings.over(4)),
            List.of(new Amps(0.01)),
            new Volts(0.02),
            1);
    Reading.Point point = ((Reading.Measured) truth.reading(step)).points().get(0);

    double added = 0;
    if (kelvin.readsContact()) {
      added += 2 * 0.05;
    }
    if (kelvin.readsPath()) {
      added += 0.5 + 0.4;
    }
    assertThat(point.volts() / point.amps())
        .isCloseTo(truth.ohms(Rings.over(3), Rings.over(4)) + added, within(1e-12));
  }

  @Test
  void openGroundJointIsSeen() {
    Truth truth = truth(Kelvin.TAIL, one(GROUND_JOINT, new Condition.Open()));

    assertThat(truth.visibility(GROUND_JOINT).sight()).isEqualTo(Visibility.Sight.SEEN);
  }

  @Test
  void openSignalJointIsSeenFromItsOwnContact() {
    Truth truth = truth(Kelvin.TAIL, one(SIGNAL_JOINT, new Condition.Open()));
    Visibility visibility = truth.visibility(SIGNAL_JOINT);

    assertThat(visibility.sight()).isEqualTo(Visibility.Sight.SEEN);
    assertThat(visibility.step().orElseThrow().high()).containsExactly(Rings.over(7));
  }

  @Test
  void tenMilliohmBehindAProbeThatSpreadsAsMuchIsUnseen() {
    Truth truth = truth(Kelvin.TAIL, one(GROUND_JOINT, new Condition.High(new Ohms(0.01))));

    assertThat(truth.visibility(GROUND_JOINT).sight()).isEqualTo(Visibility.Sight.UNSEEN);
  }

  @Test
  void tenMilliohmIsSeenByTwoTipsOnThePad() {
    Truth truth = truth(Kelvin.TIP, one(GROUND_JOINT, new Condition.High(new Ohms(0.01))));

    assertThat(truth.visibility(GROUND_JOINT).sight()).isEqualTo(Visibility.Sight.SEEN);
  }

  @Test
  void viaInParallelWithEdgePlatingIsUnseen() {
    Component via = new Component.Via(Rings.id(0));
    Truth truth =
        truth(
            Kelvin.TAIL,
            "interposer",
            one(via, new Condition.Open()),
            new Action.Split(Side.UPPER),
            new Action.Lift());

    assertThat(truth.visibility(via).sight()).isEqualTo(Visibility.Sight.UNSEEN);
  }

  @Test
  void whatHasNoEffectAtDirectCurrentIsUnseen() {
    Component hidden = new Component.Hidden(Side.LOWER, "touch");
    Truth truth = truth(Kelvin.TIP, one(hidden, new Condition.Dead()));

    assertThat(truth.visibility(hidden).deviations()).isZero();
  }

  @Test
  void faultOfTheBoardThatIsNotInTheFixtureIsUnseen() {
    Component pad = new Component.Pad(Side.UPPER, Rings.id(3));
    Truth truth = truth(Kelvin.TIP, one(pad, new Condition.Open()));

    assertThat(truth.visibility(pad).deviations()).isZero();
  }

  @Test
  void soundComponentShowsNothing() {
    assertThat(truth(Kelvin.TIP, Defects.NONE).visibility(GROUND_JOINT).deviations()).isZero();
  }

  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void spreadOfGoodPartsIsThatOfManyStacks(boolean broken) {
    Component via = new Component.Via(Rings.id(1));
    Defects defects = broken ? one(via, new Condition.Open()) : Defects.NONE;
    Contact a = Rings.over(1);
    Contact b = Rings.over(11);
    int stacks = 600;
    double sum = 0;
    double squares = 0;
    for (int seed = 1; seed <= stacks; seed++) {
      double ohms =
          truth(seed, Kelvin.TIP, "interposer-on-lower", defects, new Action.Split(Side.UPPER))
              .ohms(a, b);
      sum += ohms;
      squares += ohms * ohms;
    }
    double mean = sum / stacks;
    double sd = Math.sqrt(squares / stacks - mean * mean);

    // 600 stacks tell a standard deviation to 3 %; the first order and one stack's values add some.
    assertThat(truth(Kelvin.TIP, defects).spreadOhms(a, b))
        .isCloseTo(sd, Percentage.withPercentage(25));
  }

  @Test
  void openJointBehindEdgePlatingIsSeenOnlyByWhoKnowsItsCopper() {
    Component joint = new Component.Joint(Side.LOWER, Rings.id(0));
    Truth truth = truth(Kelvin.TIP, one(joint, new Condition.Open()));

    assertThat(truth.visibilityWithPartsKnown(joint).sight()).isEqualTo(Visibility.Sight.SEEN);
    assertThat(truth.visibility(joint).sight()).isNotEqualTo(Visibility.Sight.SEEN);
  }

  /** What is far from a fault changes less: the short search against every pair of contacts. */
  @ParameterizedTest
  @EnumSource(Kelvin.class)
  void nothingFarAwayShowsMoreThanWhatWasLookedAt(Kelvin kelvin) {
    Defects defects =
        Defects.NONE
            .with(GROUND_JOINT, new Condition.High(new Ohms(0.04)))
            .with(SIGNAL_JOINT, new Condition.High(new Ohms(3)))
            .with(new Component.Joint(Side.LOWER, Rings.id(13)), new Condition.Open())
            .with(new Component.Pad(Side.LOWER, Rings.id(16)), new Condition.High(new Ohms(0.2)))
            .with(new Component.Via(Rings.id(0)), new Condition.Open())
            .with(new Component.Via(Rings.id(4)), new Condition.High(new Ohms(0.03)))
            .with(
                Component.Bridge.between(Side.LOWER, Rings.id(8), Rings.id(9)),
                new Condition.Bridged(new Ohms(3e5)))
            .with(
                Component.Bridge.between(Side.LOWER, Rings.id(18), Rings.id(19)),
                new Condition.Bridged(new Ohms(0.02)))
            .with(new Component.NetOf(new NetId(Side.LOWER, "RAIL1")), new Condition.Abnormal(1.02))
            .with(
                new Component.NetOf(new NetId(Side.LOWER, "SIG17")),
                new Condition.Shorted("GND", new Ohms(2e4)));
    Truth truth = truth(kelvin, defects);
    List<Contact> contacts = List.copyOf(truth.assembly().contacts());

    for (Component fault : defects.conditions().keySet()) {
      Showing showing = truth.showing(fault, true);
      Visibility everywhere = Visibility.NONE;
      for (int i = 0; i < contacts.size(); i++) {
        for (int j = 0; j < i; j++) {
          everywhere = everywhere.orBetter(showing.pair(contacts.get(i), contacts.get(j)));
        }
      }
      Visibility near = truth.visibilityWithPartsKnown(fault);

      assertThat(near.sight()).as("%s", fault).isEqualTo(everywhere.sight());
      assertThat(near.deviations())
          .as("%s", fault)
          .isGreaterThanOrEqualTo(Math.min(100, 0.98 * everywhere.deviations()));
    }
  }
}
