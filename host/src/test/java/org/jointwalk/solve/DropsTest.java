package org.jointwalk.solve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.jointwalk.trial.Readings.junction;
import static org.jointwalk.trial.Readings.over;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.DropShift;
import org.jointwalk.job.Measurement;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Contribution;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.Readings;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

/** Twelve signals whose junctions are alike; a good one has 3 ohm in series. */
class DropsTest {

  private static final int SIGNALS = 12;
  private static final double USUAL_OHMS = 3;
  private static final double NOTHING = Double.POSITIVE_INFINITY;
  private static final Contact GROUND = over("G");

  private static Reference.Drop drop(String net, double ohms, double growthSd, List<Amps> amps) {
    List<Volts> volts =
        amps.stream()
            .map(a -> new Volts(Readings.drop(a.value(), ohms, 0, Double.POSITIVE_INFINITY)))
            .toList();
    return new Reference.Drop(
        new NetId(Side.LOWER, net), amps, volts, new Volts(0.004), new Volts(growthSd), 5);
  }

  private static SmallMap map(double growthSd) {
    SmallMap map = new SmallMap().net("GND", Role.GROUND).pad("G", "GND");
    for (int i = 0; i < SIGNALS; i++) {
      map.net("S" + i, Role.SIGNAL).pad("P" + i, "S" + i);
      map.reference(drop("S" + i, USUAL_OHMS, growthSd, Readings.JUNCTION));
    }
    return map;
  }

  private static Drops drops(SmallMap map, Kelvin kelvin, Reference.Drop... own) {
    Assembly assembly = map.in("interposer-on-lower");
    return new Drops(
        assembly,
        new Accuracy(
            kelvin == Kelvin.TIP
                ? Instruments.ideal(Switching.MULTIPLEXER)
                : Instruments.round(Switching.MULTIPLEXER, kelvin)),
        List.of(own));
  }

  private static List<Measurement> all(double shift, double... firstOhms) {
    List<Measurement> list = new ArrayList<>();
    for (int i = 0; i < SIGNALS; i++) {
      double ohms = i < firstOhms.length ? firstOhms[i] : USUAL_OHMS;
      list.add(junction(1, GROUND, over("P" + i), ohms, shift, NOTHING));
    }
    return list;
  }

  private static Estimate of(Map<Contact, Estimate> excess, String id) {
    Estimate estimate = excess.get(over(id));
    assertThat(estimate).as(id).isNotNull();
    return Objects.requireNonNull(estimate);
  }

  @Test
  void aResistanceInSeriesIsReadOffTheGrowthOfTheDrop() {
    Map<Contact, Estimate> excess =
        drops(map(0), Kelvin.TIP).excess(all(0, USUAL_OHMS + 7, USUAL_OHMS));
    assertThat(of(excess, "P0").value()).isCloseTo(7, within(1e-6));
    assertThat(of(excess, "P1").value()).isCloseTo(0, within(1e-6));
    assertThat(excess).hasSize(SIGNALS);
  }

  @Test
  void aWarmBoardShowsNoResistance() {
    Map<Contact, Estimate> excess = drops(map(0), Kelvin.TIP).excess(all(-0.03, USUAL_OHMS + 7));
    assertThat(of(excess, "P0").value()).isCloseTo(7, within(1e-6));
    assertThat(of(excess, "P5").value()).isCloseTo(0, within(1e-6));
  }

  @Test
  void fewPadsSayNothingOfWhatTheyHaveInCommon() {
    List<Measurement> list = all(0);
    assertThat(drops(map(0), Kelvin.TIP).excess(list.subList(0, 7))).isEmpty();
    assertThat(drops(map(0), Kelvin.TIP).excess(list.subList(0, 8))).hasSize(8);
  }

  @Test
  void residueBesideAJunctionIsNoResistanceInSeries() {
    List<Measurement> list = all(0);
    list.set(0, junction(1, GROUND, over("P0"), USUAL_OHMS, 0, 20_000));
    Map<Contact, Estimate> excess = drops(map(0), Kelvin.TIP).excess(list);
    assertThat(excess).doesNotContainKey(over("P0")).hasSize(SIGNALS - 1);
  }

  @Test
  void theSpreadBetweenBoardsEntersWhenItIsTheLargerPart() {
    double growthSd = 0.0019;
    Estimate estimate = of(drops(map(growthSd), Kelvin.TIP).excess(all(0)), "P3");
    // Five boards: the mean that is compared with is known to a fifth of the variance.
    assertThat(estimate.u()).isCloseTo(growthSd / 0.95e-3 * Math.sqrt(1.2), within(1e-6));
    assertThat(estimate.dof()).isCloseTo(4, within(1e-9));
  }

  @Test
  void theSpreadOfTheJunctionsEntersWithTheWeightOfAMedianDeviation() {
    double[] ohms = new double[SIGNALS];
    for (int i = 0; i < SIGNALS; i++) {
      ohms[i] = USUAL_OHMS + (i % 4 - 1.5);
    }
    Estimate estimate = of(drops(map(0), Kelvin.TIP).excess(all(0, ohms)), "P3");
    // Deviations from the median are 0.5 and 1.5, half of each: the median deviation is 1.
    assertThat(estimate.u()).isCloseTo(1.4826, within(1e-4));
    assertThat(estimate.dof()).isCloseTo(0.37 * SIGNALS, within(1e-6));
  }

  @Test
  void theInstrumentsPartIsThatOfBothVoltages() {
    Estimate estimate = of(drops(map(0), Kelvin.TAIL).excess(all(0)), "P3");
    Accuracy accuracy = new Accuracy(Instruments.round(Switching.MULTIPLEXER, Kelvin.TAIL));
    double top = Readings.drop(1e-3, USUAL_OHMS, 0, NOTHING);
    double low = Readings.drop(0.05e-3, USUAL_OHMS, 0, NOTHING);
    double u =
        Math.hypot(
                accuracy.junctionVolts(top, 1e-3),
                accuracy.junctionVolts(low, 0.05e-3) / Math.sqrt(2))
            / 0.95e-3;
    assertThat(estimate.budget().get(0))
        .isEqualTo(Contribution.known("voltages at three currents", estimate.budget().get(0).u()));
    assertThat(estimate.budget().get(0).u()).isCloseTo(u, within(1e-9));
  }

  @Test
  void theBoardsOwnDropsComeBeforeTheLearnedOnes() {
    Reference.Drop[] own = new Reference.Drop[SIGNALS];
    for (int i = 0; i < SIGNALS; i++) {
      own[i] = drop("S" + i, USUAL_OHMS + i, 0, Readings.JUNCTION);
    }
    double[] ohms = new double[SIGNALS];
    for (int i = 0; i < SIGNALS; i++) {
      ohms[i] = USUAL_OHMS + i + (i == 4 ? 6 : 0);
    }
    Map<Contact, Estimate> excess = drops(map(0), Kelvin.TIP, own).excess(all(0, ohms));
    assertThat(of(excess, "P4").value()).isCloseTo(6, within(1e-6));
    assertThat(of(excess, "P5").value()).isCloseTo(0, within(1e-6));
  }

  @Test
  void ownDropsCarryTheInstrumentTwiceAndTheSpreadThatTheNetHasBeyondItsKind() {
    SmallMap map = map(0.001);
    map.reference(drop("S0", USUAL_OHMS, 0.003, Readings.JUNCTION));
    Reference.Drop[] own = new Reference.Drop[SIGNALS];
    for (int i = 0; i < SIGNALS; i++) {
      own[i] = drop("S" + i, USUAL_OHMS, 0, Readings.JUNCTION);
    }
    Map<Contact, Estimate> excess = drops(map, Kelvin.TAIL, own).excess(all(0));
    Map<Contact, Estimate> learned = drops(map, Kelvin.TAIL).excess(all(0));
    assertThat(of(excess, "P5").budget().get(0).u())
        .isCloseTo(Math.sqrt(2) * of(learned, "P5").budget().get(0).u(), within(1e-9));
    assertThat(of(excess, "P5").budget().get(1).u()).isZero();
    assertThat(of(excess, "P0").budget().get(1).u())
        .isCloseTo(Math.sqrt(9e-6 - 1e-6) / 0.95e-3 * Math.sqrt(1.2), within(1e-6));
  }

  @Test
  void aSourceThatRunsOutOfVoltageHasMetHundredsOfOhm() {
    for (double ohms : new double[] {600, 1500, 5000}) {
      Estimate estimate = of(drops(map(0), Kelvin.TIP).excess(all(0, USUAL_OHMS + ohms)), "P0");
      assertThat(estimate.value()).isCloseTo(ohms, within(0.001 * ohms));
      assertThat(estimate.u()).isLessThan(ohms / 5);
    }
  }

  /** The good board's drop is told by three points; what lies between grows with the logarithm. */
  @Test
  void aStalledSourceIsComparedWithTheDropAtTheCurrentThatFlowed() {
    List<Amps> amps = Readings.JUNCTION;
    List<Volts> volts = List.of(new Volts(0.4), new Volts(0.5), new Volts(0.8));
    SmallMap one = new SmallMap().net("GND", Role.GROUND).net("S0", Role.SIGNAL);
    one.pad("G", "GND")
        .pad("P0", "S0")
        .reference(
            new Reference.Drop(
                new NetId(Side.LOWER, "S0"), amps, volts, new Volts(0.003), new Volts(0), 5));
    double[][] stalls = {
      {0.1e-3, 0.4 + 0.1 * Math.log(2) / Math.log(4.48)},
      {0.224e-3, 0.5},
      {0.5e-3, 0.5 + 0.3 * Math.log(0.5 / 0.224) / Math.log(1 / 0.224)}
    };
    for (double[] stall : stalls) {
      List<Reading.Point> points = new ArrayList<>();
      points.add(new Reading.Point(0.45, 0.05e-3));
      points.add(new Reading.Point(stall[0] < 0.2e-3 ? 1 : 0.7, Math.min(stall[0], 0.224e-3)));
      points.add(new Reading.Point(1, stall[0]));
      points.add(new Reading.Point(0.45, 0.05e-3));
      Measurement m =
          new Measurement(
              1,
              Readings.step(Kind.JUNCTION, GROUND, over("P0")),
              new Reading.OverRange(0, points));
      Estimate estimate = of(drops(one, Kelvin.TAIL).excess(List.of(m)), "P0");
      assertThat(estimate.value()).isCloseTo((1 - stall[1]) / stall[0], within(1e-6));
      double instrument =
          new Accuracy(Instruments.round(Switching.MULTIPLEXER, Kelvin.TAIL))
              .junctionVolts(1, stall[0]);
      assertThat(estimate.budget())
          .extracting(c -> c.u() * stall[0])
          .satisfies(
              us -> {
                assertThat(us.get(0)).isCloseTo(instrument, within(1e-12));
                assertThat(us.get(1)).isCloseTo(0.003, within(1e-12));
                assertThat(us.get(2)).isCloseTo(0.02, within(1e-12));
              });
    }
  }

  @Test
  void oneCurrentAloneSaysNothingOfASeriesResistance() {
    List<Amps> one = Readings.JUNCTION.subList(0, 1);
    SmallMap map = new SmallMap().net("GND", Role.GROUND).pad("G", "GND");
    List<Measurement> list = new ArrayList<>();
    for (int i = 0; i < SIGNALS; i++) {
      map.net("S" + i, Role.SIGNAL).pad("P" + i, "S" + i);
      map.reference(drop("S" + i, 0, 0, one));
      Step step =
          new Step(Kind.JUNCTION, List.of(GROUND), List.of(over("P" + i)), one, new Volts(1), 1);
      Reading.Point point = new Reading.Point(0.5, 0.05e-3);
      list.add(new Measurement(1, step, new Reading.Measured(0, List.of(point, point))));
    }
    assertThat(drops(map, Kelvin.TIP).excess(list)).isEmpty();
    assertThat(drops(map, Kelvin.TIP).shifts(1, list)).hasSize(SIGNALS);
  }

  /** The whole board warmed up in between: growth and bend of all differ, and of none alone. */
  @Test
  void whatAllPadsHaveInCommonOfGrowthAndBendIsTakenOff() {
    double[] ohms = new double[SIGNALS];
    for (int i = 0; i < SIGNALS; i++) {
      ohms[i] = USUAL_OHMS + 2 + (i % 2 == 0 ? 0.1 : -0.1) + (i == 3 ? 7 : 0);
    }
    List<Measurement> list = new ArrayList<>();
    for (int i = 0; i < SIGNALS; i++) {
      list.add(junction(1, GROUND, over("P" + i), ohms[i], 0, 60_000));
    }
    Map<Contact, Estimate> excess = drops(map(0), Kelvin.TIP).excess(list);
    assertThat(excess).hasSize(SIGNALS);
    // Six of twelve read a tenth above, five a tenth below: the middle is above.
    assertThat(of(excess, "P3").value()).isCloseTo(6.8, within(0.2));
    assertThat(of(excess, "P5").value()).isCloseTo(-0.2, within(0.02));
    assertThat(of(excess, "P4").u()).isCloseTo(1.4826 * 0.1, within(0.02));
  }

  /** The spread that is seen holds the instrument's part already. */
  @Test
  void theInstrumentIsTakenOffTheSpreadOfTheJunctions() {
    double[] ohms = new double[SIGNALS];
    for (int i = 0; i < SIGNALS; i++) {
      ohms[i] = USUAL_OHMS + 20 * (i % 4 - 1.5);
    }
    Estimate estimate = of(drops(map(0), Kelvin.TAIL).excess(all(0, ohms)), "P3");
    double spread = 1.4826 * 20;
    double instrument = estimate.budget().get(0).u();
    assertThat(instrument).isGreaterThan(1);
    assertThat(estimate.budget().get(1).u())
        .isCloseTo(Math.sqrt(spread * spread - instrument * instrument), within(0.01));
  }

  @Test
  void theMiddleOfAnEvenNumberLiesBetweenTheTwo() {
    assertThat(Series.median(List.of(3.0, 1.0, 2.0))).isEqualTo(2);
    assertThat(Series.median(List.of(4.0, 1.0, 2.0, 3.5))).isEqualTo(2.75);
    assertThat(Series.median(List.of(9.0))).isEqualTo(9);
  }

  @Test
  void withoutAReferenceNothingIsSaidOfASeriesResistance() {
    SmallMap bare = new SmallMap().net("GND", Role.GROUND).pad("G", "GND");
    for (int i = 0; i < SIGNALS; i++) {
      bare.net("S" + i, Role.SIGNAL).pad("P" + i, "S" + i);
    }
    Drops drops = drops(bare, Kelvin.TIP);
    assertThat(drops.excess(all(0, 1500))).isEmpty();
    assertThat(drops.shifts(1, all(0))).isEmpty();
  }

  @Test
  void aReferenceAtOtherCurrentsIsNoReference() {
    SmallMap other = new SmallMap().net("GND", Role.GROUND).pad("G", "GND");
    List<Amps> amps = List.of(new Amps(1e-5), new Amps(4.5e-5), new Amps(2e-4));
    for (int i = 0; i < SIGNALS; i++) {
      other.net("S" + i, Role.SIGNAL).pad("P" + i, "S" + i);
      other.reference(drop("S" + i, USUAL_OHMS, 0, amps));
    }
    assertThat(drops(other, Kelvin.TIP).excess(all(0, 1500))).isEmpty();
  }

  @Test
  void shiftsTellAnotherCircuitFromAnotherTemperature() {
    List<Measurement> list = all(-0.02);
    list.set(2, junction(1, GROUND, over("P2"), USUAL_OHMS, 0.08, NOTHING));
    List<DropShift> shifts = drops(map(0), Kelvin.TIP).shifts(4, list);
    assertThat(shifts).hasSize(SIGNALS).allMatch(s -> s.seating() == 4);
    assertThat(shifts.get(2).net()).isEqualTo(new NetId(Side.LOWER, "S2"));
    assertThat(shifts.get(2).volts().value()).isCloseTo(0.1, within(1e-9));
    assertThat(shifts.get(3).volts().value()).isCloseTo(0, within(1e-9));
    assertThat(shifts.get(3).volts().u()).isCloseTo(0.004, within(1e-9));
  }

  @Test
  void fewShiftsHaveNothingInCommon() {
    List<DropShift> enough = drops(map(0), Kelvin.TIP).shifts(1, all(-0.02).subList(0, 8));
    assertThat(enough).allSatisfy(s -> assertThat(s.volts().value()).isCloseTo(0, within(1e-9)));
    List<DropShift> shifts = drops(map(0), Kelvin.TIP).shifts(1, all(-0.02).subList(0, 7));
    assertThat(shifts)
        .allSatisfy(s -> assertThat(s.volts().value()).isCloseTo(-0.02, within(1e-9)));
  }

  @Test
  void anOpenPadShowsNeitherDropNorShift() {
    Drops drops = drops(map(0), Kelvin.TIP);
    List<Measurement> list = all(0, Double.POSITIVE_INFINITY);
    assertThat(drops.excess(list)).doesNotContainKey(over("P0"));
    assertThat(drops.shifts(1, list)).hasSize(SIGNALS - 1);
    assertThat(drops.read(list)).hasSize(SIGNALS - 1);
  }

  @Test
  void aReadingAtTheLimitOfItsVoltageIsNoDropEvenWhenTheFixtureCallsItMeasured() {
    Measurement open = junction(1, GROUND, over("P0"), Double.POSITIVE_INFINITY);
    List<Reading.Point> points = ((Reading.OverRange) open.reading()).points();
    Measurement called =
        new Measurement(
            1,
            open.step(),
            new Reading.Measured(
                0, points.stream().map(p -> new Reading.Point(1.0, 5e-5)).toList()));
    assertThat(drops(map(0), Kelvin.TIP).shifts(1, List.of(called))).isEmpty();
    assertThat(Junction.conducts(called.step(), called.reading())).isFalse();
  }

  @Test
  void theFirstCurrentCountsWithTheMeanOfItsTwoReadings() {
    Measurement m = junction(1, GROUND, over("P0"), USUAL_OHMS);
    List<Reading.Point> points = new ArrayList<>(((Reading.Measured) m.reading()).points());
    points.set(3, new Reading.Point(points.get(0).volts() + 0.002, points.get(3).amps()));
    Measurement drifting = new Measurement(1, m.step(), new Reading.Measured(0, points));
    Reference.Drop drop = drops(map(0), Kelvin.TIP).read(List.of(drifting)).get(0);
    assertThat(drop.volts().get(0).value()).isCloseTo(points.get(0).volts() + 0.001, within(1e-12));
    assertThat(drop.boards()).isEqualTo(1);
    assertThat(drop.amps()).isEqualTo(Readings.JUNCTION);
  }

  @Test
  void dropsOfSeveralPadsOfANetAreAveraged() {
    SmallMap two =
        new SmallMap()
            .net("GND", Role.GROUND)
            .net("S", Role.SIGNAL)
            .pad("G", "GND")
            .pad("A", "S")
            .pad("B", "S");
    Reference.Drop drop =
        drops(two, Kelvin.TIP)
            .read(List.of(junction(1, GROUND, over("A"), 0), junction(1, GROUND, over("B"), 10)))
            .get(0);
    assertThat(drop.volts().get(2).value())
        .isCloseTo(Readings.drop(1e-3, 5, 0, NOTHING), within(1e-9));
  }
}
