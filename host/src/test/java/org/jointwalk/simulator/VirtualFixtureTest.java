package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.jointwalk.simulator.Clamped.JUNCTION;
import static org.jointwalk.simulator.Clamped.MAP;
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
import static org.jointwalk.simulator.Clamped.run;
import static org.jointwalk.simulator.Clamped.step;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Action;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.junit.jupiter.api.Test;

/** How a virtual fixture is clamped, run, refused and stopped. */
class VirtualFixtureTest {

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
  void interposerThatWasLiftedUnrecordedHidesItsOwnFaults() throws FixtureException {
    // The board's own ground pads lie under the same probes, so open vias are not missed.
    Defects vias =
        one(new Component.Via(Rings.id(0)), new Condition.Open())
            .with(new Component.Via(Rings.id(1)), new Condition.Open());
    VirtualFixture fixture = clamped(vias, new Specimen.Trouble.Inside("lower-board"));

    assertThat(fixture.truth().assembly().setUp().name()).isEqualTo("lower-board");
    assertThat(fixture.truth().visibility(new Component.Via(Rings.id(0))).deviations()).isZero();
    assertThat(run(fixture, lowLevel(Rings.over(0), Rings.over(1))).get(0))
        .isInstanceOf(Reading.Measured.class);
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
  void fingerprintTellsSpecimensApartAndNothingElse() {
    String hash = clamped(Defects.NONE).hash();

    assertThat(hash).matches("[0-9a-f]{64}").isEqualTo(clamped(Defects.NONE).hash());
    assertThat(clamped(one(joint(3), new Condition.Open())).hash()).isNotEqualTo(hash);
  }
}
