package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.assertj.core.data.Percentage;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
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
import org.jointwalk.stack.Specimen;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class VirtualFixtureTest {

  private static final String ON_LOWER = "interposer-on-lower";
  private static final Action SPLIT = new Action.Split(Side.UPPER);
  private static final double[] JUNCTION = {0.05e-3, 0.224e-3, 1e-3};

  private static final PadMap MAP = Rings.map(40);

  private static VirtualFixture fixture(
      Kelvin kelvin, Switching switching, Defects defects, Specimen.Trouble... troubles) {
    return new VirtualFixture(
        MAP,
        Rings.specimen(7, defects, troubles),
        Rings.fixture(MAP, kelvin, switching),
        VirtualFixture.Conditions.CALM);
  }

  /** The interposer on its lower board in a two-probe multiplexer with sense at the tail. */
  private static VirtualFixture clamped(Defects defects, Specimen.Trouble... troubles) {
    VirtualFixture fixture = fixture(Kelvin.TAIL, Switching.MULTIPLEXER, defects, troubles);
    clamp(fixture, ON_LOWER, SPLIT);
    return fixture;
  }

  private static void clamp(VirtualFixture fixture, String setUp, Action... actions) {
    fixture.clamp(SetUp.named(setUp).orElseThrow(), List.of(actions));
  }

  private static List<Reading> run(VirtualFixture fixture, Step... steps) throws FixtureException {
    List<Reading> readings = new ArrayList<>();
    fixture.run(Scan.of(ON_LOWER, List.of(steps)), batch -> readings.addAll(batch.readings()));
    return readings;
  }

  private static Step step(Kind kind, Contact a, Contact b, double volts, double... amps) {
    return new Step(
        kind,
        List.of(a),
        List.of(b),
        Arrays.stream(amps).mapToObj(Amps::new).toList(),
        new Volts(volts),
        1);
  }

  private static Step lowLevel(Contact a, Contact b) {
    return step(Kind.LOW_LEVEL, a, b, 0.02, 0.01);
  }

  private static Step isolation(Contact a, Contact b) {
    return step(Kind.ISOLATION, a, b, 0.05);
  }

  private static Reading.Point point(Reading reading) {
    return points(reading).get(0);
  }

  private static List<Reading.Point> points(Reading reading) {
    return reading instanceof Reading.OverRange over
        ? over.points()
        : ((Reading.Measured) reading).points();
  }

  private static double ohms(Reading reading) {
    return point(reading).volts() / point(reading).amps();
  }

  private static Defects one(Component component, Condition condition) {
    return Defects.NONE.with(component, condition);
  }

  private static Component joint(int k) {
    return new Component.Joint(Side.LOWER, Rings.id(k));
  }

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
  void missedProbeReadsOpenUntilTheLidWasOpenedAgain() throws FixtureException {
    VirtualFixture fixture = clamped(Defects.NONE, new Specimen.Trouble.Missed(Rings.over(3), 1));
    Step step = lowLevel(Rings.over(3), Rings.over(23));

    assertThat(run(fixture, step).get(0)).isInstanceOf(Reading.OverRange.class);
    fixture.reseat();
    assertThat(run(fixture, step).get(0)).isInstanceOf(Reading.Measured.class);
  }

  @Test
  void everyClampingIsANewSeatingOfOneStart() {
    VirtualFixture fixture = clamped(Defects.NONE);
    long boot = fixture.clamping().boot();
    fixture.reseat();
    clamp(fixture, ON_LOWER, SPLIT);

    assertThat(fixture.clamping().boot()).isEqualTo(boot);
    assertThat(fixture.clamping().lid()).isEqualTo(3);
  }

  @Test
  void jobThatGoesOnCountsItsSeatingsOn() throws FixtureException {
    VirtualFixture fixture =
        new VirtualFixture(
            MAP,
            Rings.specimen(7, Defects.NONE, new Specimen.Trouble.Missed(Rings.over(3), 3)),
            Rings.fixture(MAP, Kelvin.TAIL, Switching.MULTIPLEXER),
            VirtualFixture.Conditions.CALM.after(2));
    clamp(fixture, ON_LOWER, SPLIT);

    assertThat(run(fixture, lowLevel(Rings.over(3), Rings.over(23))).get(0))
        .isInstanceOf(Reading.OverRange.class);
    assertThat(fixture.clamping().boot()).isNotEqualTo(clamped(Defects.NONE).clamping().boot());
  }

  @Test
  void actionsChangeWhatIsClamped() throws FixtureException {
    VirtualFixture fixture = clamped(one(joint(3), new Condition.Open()));
    Step step = lowLevel(Rings.over(3), Rings.over(23));
    assertThat(run(fixture, step).get(0)).isInstanceOf(Reading.OverRange.class);

    clamp(
        fixture,
        ON_LOWER,
        SPLIT,
        new Action.Lift(),
        new Action.Reball(Side.LOWER, List.of(Rings.id(3))));
    assertThat(run(fixture, step).get(0)).isInstanceOf(Reading.Measured.class);
    assertThat(fixture.defectsAfter(List.of(SPLIT)).conditions()).hasSize(1);
    assertThat(fixture.truth().defects()).isEqualTo(Defects.NONE);
  }

  @Test
  void whatCannotBeThereIsNotClamped() {
    VirtualFixture fixture = fixture(Kelvin.TAIL, Switching.MULTIPLEXER, Defects.NONE);

    assertThatThrownBy(() -> clamp(fixture, ON_LOWER)).hasMessageContaining("cannot be clamped");
  }

  @Test
  void otherPartsThanTheJobSaysAreReadWhenTheyAreInside() throws FixtureException {
    // The lower board's pads lie under the same probes; a shorting plate joins them all.
    VirtualFixture fixture = clamped(Defects.NONE, new Specimen.Trouble.Inside("shorting-plate"));

    assertThat(ohms(run(fixture, lowLevel(Rings.over(3), Rings.over(8))).get(0)))
        .isBetween(0.06, 0.16);
    assertThat(fixture.truth().assembly().setUp().name()).isEqualTo("shorting-plate");
  }

  @Test
  void nothingClampedIsRefused() {
    VirtualFixture fixture = fixture(Kelvin.TAIL, Switching.MULTIPLEXER, Defects.NONE);

    refuses(fixture, "nothing is clamped", lowLevel(Rings.over(3), Rings.over(23)));
  }

  private static void refuses(VirtualFixture fixture, String because, Step step) {
    List<Batch> batches = new ArrayList<>();
    assertThatThrownBy(
            () ->
                fixture.run(
                    Scan.of(ON_LOWER, List.of(lowLevel(Rings.over(3), Rings.over(4)), step)),
                    batches::add))
        .isInstanceOf(FixtureException.Refused.class)
        .hasMessageContaining(because);
    assertThat(batches).isEmpty();
  }

  @Test
  void stepsBeyondTheCeilingsAreRefusedBeforeAnythingIsSourced() {
    VirtualFixture fixture = clamped(Defects.NONE);

    refuses(fixture, "step 1: 0.05 V", step(Kind.LOW_LEVEL, Rings.over(7), Rings.over(8), 0.05));
    refuses(fixture, "0.02 A", step(Kind.NORMAL_LEVEL, Rings.over(7), Rings.over(8), 0.05, 0.02));
    refuses(
        fixture, "0.002 A", step(Kind.JUNCTION, Rings.over(0), Rings.over(7), 1, 0.05e-3, 2e-3));
    refuses(fixture, "5 V", step(Kind.ISOLATION, Rings.over(7), Rings.over(8), 5));
  }

  @Test
  void contactsThatAreNotThereAreRefused() {
    VirtualFixture fixture = clamped(Defects.NONE);

    refuses(fixture, "point NOWHERE", lowLevel(new Contact.Point("NOWHERE"), Rings.over(3)));
    refuses(fixture, "touches nothing", lowLevel(Rings.under(3), Rings.over(3)));
  }

  @Test
  void groupsAreRefusedByAMultiplexer() {
    Step group =
        new Step(
            Kind.ISOLATION,
            List.of(Rings.over(7), Rings.over(8)),
            List.of(Rings.over(9)),
            List.of(),
            new Volts(0.05),
            1);

    refuses(clamped(Defects.NONE), "one contact to each bus", group);
  }

  @Test
  void setUpThatNobodyKnowsIsRefused() {
    VirtualFixture fixture = clamped(Defects.NONE);

    assertThatThrownBy(() -> fixture.run(Scan.of("sideways", List.of()), batch -> {}))
        .isInstanceOf(FixtureException.Refused.class)
        .hasMessageContaining("sideways");
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

  private static Scan longScan(int steps) {
    return new Scan(
        ON_LOWER,
        100,
        IntStream.range(0, steps)
            .mapToObj(k -> isolation(Rings.over(k % 39), Rings.over(k % 39 + 1)))
            .toList());
  }

  @Test
  void readingsComeInBatchesWithoutAGap() throws FixtureException {
    VirtualFixture fixture = clamped(Defects.NONE);
    List<Batch> batches = new ArrayList<>();
    fixture.run(longScan(75), batches::add);

    assertThat(batches.stream().map(b -> b.readings().size())).containsExactly(32, 32, 11);
    assertThat(batches.stream().flatMap(b -> b.readings().stream()).map(Reading::index))
        .containsExactlyElementsOf(IntStream.range(100, 175).boxed().toList());
    // A reading takes 2 ms, changing the switches 0.8 ms.
    assertThat(fixture.deviceSeconds()).isCloseTo(75 * 0.0028, within(1e-9));
    assertThat(batches.stream().mapToLong(Batch::closures).sum()).isEqualTo(150);
  }

  @Test
  void stoppedRunReturnsEarlyAndTheNextRunsThrough() throws FixtureException {
    VirtualFixture fixture = clamped(Defects.NONE);
    fixture.stop();
    List<Batch> batches = new ArrayList<>();
    fixture.run(
        longScan(320),
        batch -> {
          batches.add(batch);
          if (batches.size() == 2) {
            fixture.stop();
          }
        });
    assertThat(batches).hasSize(2);

    batches.clear();
    fixture.run(longScan(320), batches::add);
    assertThat(batches).hasSize(10);
  }

  @Test
  void whatTheKeeperThrowsEndsTheRun() {
    VirtualFixture fixture = clamped(Defects.NONE);

    assertThatThrownBy(
            () ->
                fixture.run(
                    longScan(75),
                    batch -> {
                      throw new IllegalStateException("full");
                    }))
        .hasMessage("full");
  }

  @Test
  void paceIsToldWhatABatchTook() throws FixtureException {
    List<Double> spent = new ArrayList<>();
    VirtualFixture fixture =
        new VirtualFixture(
            MAP,
            Rings.specimen(7, Defects.NONE),
            Rings.fixture(MAP, Kelvin.TAIL, Switching.MULTIPLEXER),
            new VirtualFixture.Conditions(ContactLaw.LOGNORMAL, 0, 0, spent::add, 0));
    clamp(fixture, ON_LOWER, SPLIT);
    fixture.run(longScan(75), batch -> {});

    assertThat(spent).hasSize(3);
    assertThat(spent.stream().mapToDouble(s -> s).sum())
        .isCloseTo(fixture.deviceSeconds(), within(1e-12));
  }

  @Test
  void sameSeedGivesTheSameReadingsAndAnotherSeedOthers() throws FixtureException {
    Step[] steps = {
      lowLevel(Rings.over(3), Rings.over(23)),
      step(Kind.JUNCTION, Rings.over(0), Rings.over(7), 1, JUNCTION),
      isolation(Rings.over(8), Rings.over(9))
    };
    VirtualFixture other =
        new VirtualFixture(
            MAP,
            Rings.specimen(8, Defects.NONE),
            Rings.fixture(MAP, Kelvin.TAIL, Switching.MULTIPLEXER),
            VirtualFixture.Conditions.CALM);
    clamp(other, ON_LOWER, SPLIT);

    List<Reading> first = run(clamped(Defects.NONE), steps);
    assertThat(run(clamped(Defects.NONE), steps)).isEqualTo(first);
    assertThat(run(other, steps)).doesNotContainAnyElementsOf(first);
  }

  @Test
  void repeatedReadingIsTakenAnew() throws FixtureException {
    VirtualFixture fixture = clamped(Defects.NONE);
    Step step = lowLevel(Rings.over(3), Rings.over(23));

    assertThat(run(fixture, step)).isNotEqualTo(run(fixture, step));
  }

  @Test
  void fingerprintTellsSpecimensApartAndNothingElse() {
    String hash = clamped(Defects.NONE).hash();

    assertThat(hash).matches("[0-9a-f]{64}").isEqualTo(clamped(Defects.NONE).hash());
    assertThat(clamped(one(joint(3), new Condition.Open())).hash()).isNotEqualTo(hash);
  }
}
