package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.jointwalk.simulator.Clamped.JUNCTION;
import static org.jointwalk.simulator.Clamped.ON_LOWER;
import static org.jointwalk.simulator.Clamped.SPLIT;
import static org.jointwalk.simulator.Clamped.clamp;
import static org.jointwalk.simulator.Clamped.clamped;
import static org.jointwalk.simulator.Clamped.fixture;
import static org.jointwalk.simulator.Clamped.isolation;
import static org.jointwalk.simulator.Clamped.joint;
import static org.jointwalk.simulator.Clamped.lowLevel;
import static org.jointwalk.simulator.Clamped.ohms;
import static org.jointwalk.simulator.Clamped.one;
import static org.jointwalk.simulator.Clamped.point;
import static org.jointwalk.simulator.Clamped.points;
import static org.jointwalk.simulator.Clamped.run;
import static org.jointwalk.simulator.Clamped.step;

import java.util.Arrays;
import java.util.List;
import org.assertj.core.data.Percentage;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What the readings of a virtual fixture mean, kind by kind. */
class MeterTest {

  @ParameterizedTest
  @EnumSource(Kelvin.class)
  void readingLeavesInWhatTheSenseWiresDo(Kelvin kelvin) throws FixtureException {
    VirtualFixture fixture = fixture(kelvin, Switching.MULTIPLEXER, Defects.NONE);
    clamp(fixture, ON_LOWER, SPLIT);
    double ohms = ohms(run(fixture, lowLevel(Rings.over(3), Rings.over(23))).get(0));

    switch (kelvin) {
      case NONE -> assertThat(ohms).isBetween(0.95, 1.08);
      case TAIL -> assertThat(ohms).isBetween(0.06, 0.16);
      case TIP -> assertThat(ohms).isBetween(0.005, 0.02);
    }
  }

  @Test
  void readingSpreadsAsTheRangeSays() throws FixtureException {
    // 2,000 readings: their sd is known to 1.6 %; the range says 5 uV and 0.1 uA.
    Step one = lowLevel(Rings.over(3), Rings.over(23));
    Step many = new Step(one.kind(), one.high(), one.low(), one.currents(), one.compliance(), 2000);
    List<Reading.Point> points = points(run(clamped(Defects.NONE), many).get(0));

    assertThat(sd(points.stream().mapToDouble(Reading.Point::volts).toArray()))
        .isCloseTo(5e-6, Percentage.withPercentage(8));
    assertThat(sd(points.stream().mapToDouble(Reading.Point::amps).toArray()))
        .isCloseTo(1e-7, Percentage.withPercentage(8));
  }

  private static double sd(double[] values) {
    double mean = Arrays.stream(values).average().orElseThrow();
    return Math.sqrt(
        Arrays.stream(values).map(v -> (v - mean) * (v - mean)).sum() / (values.length - 1));
  }

  @Test
  void openJointReadsOverRangeWithNothingButNoise() throws FixtureException {
    Reading reading =
        run(clamped(one(joint(3), new Condition.Open())), lowLevel(Rings.over(3), Rings.over(23)))
            .get(0);

    assertThat(reading).isInstanceOf(Reading.OverRange.class);
    assertThat(point(reading).amps()).isCloseTo(0, within(1e-6));
    assertThat(point(reading).volts()).isCloseTo(0.02, within(1e-4));
  }

  @Test
  void highJointAddsItsOhms() throws FixtureException {
    Step step = lowLevel(Rings.over(3), Rings.over(23));
    double sound = ohms(run(clamped(Defects.NONE), step).get(0));
    double high = ohms(run(clamped(one(joint(3), new Condition.High(new Ohms(1.5)))), step).get(0));

    assertThat(high - sound).isCloseTo(1.5, within(0.01));
  }

  @Test
  void isolationReadsABridgeAndLittleWithoutOne() throws FixtureException {
    Step step = isolation(Rings.over(8), Rings.over(9));
    Component bridge = Component.Bridge.between(Side.LOWER, Rings.id(8), Rings.id(9));

    assertThat(ohms(run(clamped(one(bridge, new Condition.Bridged(new Ohms(2e4)))), step).get(0)))
        .isCloseTo(2e4, Percentage.withPercentage(1));
    assertThat(point(run(clamped(Defects.NONE), step).get(0)).amps()).isLessThan(5e-8);
  }

  @Test
  void junctionReadsThreeCurrentsAndTheFirstAgain() throws FixtureException {
    Reading reading =
        run(clamped(Defects.NONE), step(Kind.JUNCTION, Rings.over(0), Rings.over(7), 1, JUNCTION))
            .get(0);
    List<Reading.Point> points = points(reading);

    assertThat(reading).isInstanceOf(Reading.Measured.class);
    assertThat(points).hasSize(4);
    assertThat(points.get(0).volts()).isBetween(0.35, 0.7);
    assertThat(points.get(1).volts()).isGreaterThan(points.get(0).volts() + 0.03);
    assertThat(points.get(2).volts()).isGreaterThan(points.get(1).volts() + 0.03);
    assertThat(points.get(3).volts()).isCloseTo(points.get(0).volts(), within(5e-5));
    assertThat(points.get(2).amps()).isCloseTo(1e-3, within(1e-7));
  }

  @Test
  void junctionThatUsesUpTheVoltageIsOverRangeAndTellsWhatItRead() throws FixtureException {
    Reading reading =
        run(clamped(Defects.NONE), step(Kind.JUNCTION, Rings.over(0), Rings.over(7), 0.3, JUNCTION))
            .get(0);

    assertThat(reading).isInstanceOf(Reading.OverRange.class);
    assertThat(points(reading)).hasSize(4);
    assertThat(point(reading).volts()).isCloseTo(0.3, within(1e-3));
    assertThat(point(reading).amps()).isLessThan(1e-5);
  }

  @Test
  void railThatIsStillChargingReadsLessFirstThanLast() throws FixtureException {
    // 220 ohm beside 10 uF take 2.2 ms; a reading takes 2 ms.
    List<Reading.Point> points =
        points(
            run(
                    clamped(Defects.NONE),
                    step(Kind.JUNCTION, Rings.over(3), Rings.over(0), 1, JUNCTION))
                .get(0));

    assertThat(points.get(3).volts()).isGreaterThan(2 * points.get(0).volts());
  }

  @Test
  void chargedRailShowsItsVoltageAndGivesWayToALoad() throws FixtureException {
    Defects charged =
        one(
            new Component.NetOf(new NetId(Side.LOWER, "RAIL1")),
            new Condition.Charged(1.1, new Ohms(50)));
    VirtualFixture fixture = clamped(charged);
    List<Reading> readings =
        run(
            fixture,
            step(Kind.RESIDUAL, Rings.over(13), Rings.over(0), 0.2),
            step(Kind.RESIDUAL_LOADED, Rings.over(13), Rings.over(0), 0.2),
            step(Kind.RESIDUAL, Rings.over(7), Rings.over(0), 0.05));

    // 50 ohm against the rail's own load of 220.
    double open = point(readings.get(0)).volts();
    assertThat(open).isCloseTo(1.1 * 220 / 270, within(0.02));
    assertThat(point(readings.get(1)).volts())
        .isCloseTo(open * 1e4 / (1e4 + 50 * 220 / 270.0), within(1e-3));
    assertThat(point(readings.get(2)).volts()).isCloseTo(0, within(1e-4));
    assertThat(point(readings.get(0)).amps()).isZero();
  }

  @Test
  void weldedRelayShortsTheBusesWithEverythingOpen() throws FixtureException {
    Step allOpen = new Step(Kind.ALL_OPEN, List.of(), List.of(), List.of(), new Volts(0.05), 1);
    double sound = point(run(clamped(Defects.NONE), allOpen).get(0)).amps();
    double welded =
        point(
                run(clamped(Defects.NONE, new Specimen.Trouble.StuckClosed(Rings.over(5))), allOpen)
                    .get(0))
            .amps();

    assertThat(sound).isLessThan(2e-8);
    assertThat(welded).isGreaterThan(0.9e-6);
  }

  @Test
  void weldedRelayMakesEveryPairReadItsOwnShort() throws FixtureException {
    VirtualFixture fixture = clamped(Defects.NONE, new Specimen.Trouble.StuckClosed(Rings.over(5)));

    assertThat(ohms(run(fixture, lowLevel(Rings.over(7), Rings.over(8))).get(0))).isLessThan(1.0);
  }

  @Test
  void switchThatNeverClosesReadsOpen() throws FixtureException {
    VirtualFixture fixture = clamped(Defects.NONE, new Specimen.Trouble.StuckOpen(Rings.over(3)));

    assertThat(run(fixture, lowLevel(Rings.over(3), Rings.over(23))).get(0))
        .isInstanceOf(Reading.OverRange.class);
  }

  @Test
  void kindWithoutARangeIsARefusedReading() throws FixtureException {
    Reading reading =
        run(clamped(Defects.NONE), step(Kind.CHARGE, Rings.over(7), Rings.over(0), 0.15)).get(0);

    assertThat(reading).isInstanceOf(Reading.Refused.class);
  }

  @Test
  void groupsOnAMatrixFindABridgeBetweenThem() throws FixtureException {
    Step cut =
        new Step(
            Kind.ISOLATION,
            List.of(Rings.over(7), Rings.over(8), Rings.over(27)),
            List.of(Rings.over(9), Rings.over(17), Rings.over(18)),
            List.of(),
            new Volts(0.05),
            1);
    Component bridge = Component.Bridge.between(Side.LOWER, Rings.id(8), Rings.id(9));
    VirtualFixture sound = fixture(Kelvin.TAIL, Switching.MATRIX, Defects.NONE);
    clamp(sound, ON_LOWER, SPLIT);
    VirtualFixture bridged =
        fixture(Kelvin.TAIL, Switching.MATRIX, one(bridge, new Condition.Bridged(new Ohms(500))));
    clamp(bridged, ON_LOWER, SPLIT);

    assertThat(point(run(sound, cut).get(0)).amps()).isLessThan(1e-7);
    assertThat(ohms(run(bridged, cut, cut).get(1))).isCloseTo(501, within(2.0));
    // The buses are open again: a pair reads as if no group had been joined.
    assertThat(ohms(run(bridged, cut, isolation(Rings.over(8), Rings.over(9))).get(1)))
        .isCloseTo(501, within(2.0));
  }

  @Test
  void repeatedReadingIsTakenAnew() throws FixtureException {
    VirtualFixture fixture = clamped(Defects.NONE);
    Step step = lowLevel(Rings.over(3), Rings.over(23));

    assertThat(run(fixture, step)).isNotEqualTo(run(fixture, step));
  }
}
