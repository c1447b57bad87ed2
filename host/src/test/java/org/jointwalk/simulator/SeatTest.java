package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.assertj.core.data.Percentage;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.junit.jupiter.api.Test;

class SeatTest {

  private static final int PADS = 2000;
  private static final PadMap MAP = Rings.map(PADS);
  private static final ProbeQuality PROBES = new ProbeQuality(new Ohms(0.05), new Ohms(0.01));
  private static final SetUp ON_LOWER = SetUp.named("interposer-on-lower").orElseThrow();

  private static Seat seat(
      int number, Seat.Odds odds, SetUp setUp, Defects defects, Specimen.Trouble... troubles) {
    return new Seat(
        number, setUp, MAP, Rings.specimen(9, defects, troubles), defects, PROBES, odds);
  }

  private static Seat seat(int number, ContactLaw law, double miss, Specimen.Trouble... troubles) {
    return seat(number, new Seat.Odds(law, miss, 0), ON_LOWER, Defects.NONE, troubles);
  }

  private static double[] ohms(Seat seat) {
    return IntStream.range(0, PADS).mapToDouble(k -> seat.ohms(Rings.over(k))).toArray();
  }

  private static long missed(Seat seat) {
    return DoubleStream.of(ohms(seat)).filter(Double::isInfinite).count();
  }

  @Test
  void contactsHaveTheMeanAndSpreadThatTheFixtureStates() {
    double[] ohms = ohms(seat(1, ContactLaw.LOGNORMAL, 0));
    double mean = DoubleStream.of(ohms).average().orElseThrow();
    double sd =
        Math.sqrt(DoubleStream.of(ohms).map(r -> (r - mean) * (r - mean)).sum() / (PADS - 1));

    assertThat(mean).isCloseTo(0.05, Percentage.withPercentage(2));
    assertThat(sd).isCloseTo(0.01, Percentage.withPercentage(6));
    assertThat(DoubleStream.of(ohms).boxed()).allMatch(r -> r > 0);
  }

  @Test
  void heavyTailHoldsAboutOnePercentOfTenfoldContacts() {
    double[] ohms = ohms(seat(1, ContactLaw.HEAVY_TAIL, 0));

    assertThat(DoubleStream.of(ohms).filter(r -> r > 0.2).count()).isBetween(8L, 35L);
  }

  @Test
  void probeResemblesItselfFromSeatingToSeatingButIsNotTheSame() {
    double[] first = ohms(seat(1, ContactLaw.LOGNORMAL, 0));
    double[] second = ohms(seat(2, ContactLaw.LOGNORMAL, 0));
    double covariance = 0;
    for (int k = 0; k < PADS; k++) {
      covariance += (first[k] - 0.05) * (second[k] - 0.05) / PADS;
    }

    assertThat(covariance / 1e-4).isBetween(0.3, 0.5);
    assertThat(first).isNotEqualTo(second);
  }

  @Test
  void probesMissAsOftenAsTold() {
    assertThat(missed(seat(1, ContactLaw.LOGNORMAL, 0))).isZero();
    assertThat(missed(seat(1, ContactLaw.LOGNORMAL, 0.05))).isBetween(70L, 130L);
  }

  @Test
  void namedProbeMissesInItsSeatingOnly() {
    Specimen.Trouble missed = new Specimen.Trouble.Missed(Rings.over(7), 2);

    assertThat(seat(1, ContactLaw.LOGNORMAL, 0, missed).ohms(Rings.over(7))).isFinite();
    assertThat(seat(2, ContactLaw.LOGNORMAL, 0, missed).ohms(Rings.over(7))).isInfinite();
    assertThat(missed(seat(2, ContactLaw.LOGNORMAL, 0, missed))).isEqualTo(1);
  }

  @Test
  void tiltedPlateLeavesProbesAlongOneEdgeInTheAir() {
    Seat tilted = seat(3, ContactLaw.LOGNORMAL, 0, new Specimen.Trouble.Tilted(3));
    double[] ohms = ohms(tilted);
    double x = 0;
    double y = 0;
    int missed = 0;
    for (int k = 0; k < PADS; k++) {
      if (Double.isInfinite(ohms[k])) {
        x += MAP.position(Rings.id(k)).xMm();
        y += MAP.position(Rings.id(k)).yMm();
        missed++;
      }
    }
    // On a circle of 20 mm an edge is an arc; its middle lies far from the centre.
    assertThat(missed).isBetween(PADS / 10, PADS / 2);
    assertThat(Math.hypot(x, y) / missed).isGreaterThan(14);
    assertThat(missed(seat(4, ContactLaw.LOGNORMAL, 0, new Specimen.Trouble.Tilted(3)))).isZero();
  }

  @Test
  void dirtyProbeAddsItsDirtAndABrokenOneNeverLands() {
    Contact dirty = Rings.over(1);
    Contact broken = Rings.over(2);
    Defects defects =
        Defects.NONE
            .with(new Component.Probe(dirty), new Condition.High(new Ohms(4)))
            .with(new Component.Probe(broken), new Condition.Open());
    Seat seat = seat(1, new Seat.Odds(ContactLaw.LOGNORMAL, 0, 0), ON_LOWER, defects);

    assertThat(seat.ohms(dirty)).isCloseTo(4.05, within(0.05));
    assertThat(seat.ohms(broken)).isInfinite();
  }

  private static Defects cracks(Condition condition) {
    Defects defects = Defects.NONE;
    for (int k = 0; k < 400; k++) {
      defects = defects.with(new Component.Joint(Side.LOWER, Rings.id(k)), condition);
    }
    return defects;
  }

  @Test
  void pressureClosesSomeCracksForGood() {
    Seat.Odds odds = new Seat.Odds(ContactLaw.LOGNORMAL, 0, 0.2);
    Defects cracks = cracks(new Condition.Open());
    Seat first = seat(1, odds, ON_LOWER, cracks);
    Seat second = seat(2, odds, ON_LOWER, cracks);

    assertThat(first.heldShut()).hasSizeBetween(55, 110).isEqualTo(second.heldShut());
    assertThat(first.effective().of(first.heldShut().iterator().next()))
        .containsInstanceOf(Condition.High.class);
  }

  @Test
  void withoutPlatesNothingIsPressed() {
    Seat.Odds odds = new Seat.Odds(ContactLaw.LOGNORMAL, 0, 1);
    Defects cracks = cracks(new Condition.Open());

    assertThat(seat(1, odds, SetUp.named("joined").orElseThrow(), cracks).effective())
        .isEqualTo(cracks);
  }

  @Test
  void whatComesAndGoesIsDecidedAnewInEachSeating() {
    Seat.Odds odds = new Seat.Odds(ContactLaw.LOGNORMAL, 0, 0);
    Defects cracks = cracks(new Condition.TwoState(new Ohms(0.1), 0.7));
    Seat first = seat(1, odds, ON_LOWER, cracks);
    Seat second = seat(2, odds, ON_LOWER, cracks);

    assertThat(first.heldShut()).hasSizeBetween(85, 155).isNotEqualTo(second.heldShut());
  }
}
