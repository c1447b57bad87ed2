package org.jointwalk.solve;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Drift;
import org.jointwalk.job.Measurement;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Plate;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;

class SteadinessTest {

  private static final double AMPS = 0.04;

  private static final Capabilities FOUR_BUS =
      FixtureMaps.fourBus(SaltmarshS2.unlearned()).capabilities();

  private static final double NOISE =
      FOUR_BUS.range(Kind.LOW_LEVEL).orElseThrow().noise().value() / AMPS;

  private static Contact pad(int number) {
    return new Contact.Pad(Plate.OVER, "N" + number);
  }

  private static Step step(int a, int b, int samples) {
    return new Step(
        Kind.LOW_LEVEL,
        List.of(pad(a)),
        List.of(pad(b)),
        List.of(new Amps(AMPS)),
        new Volts(0.02),
        samples);
  }

  private static Reading reading(double... ohms) {
    List<Reading.Point> points = new ArrayList<>();
    for (double one : ohms) {
      points.add(new Reading.Point(one * AMPS, AMPS));
    }
    return new Reading.Measured(0, points);
  }

  private static Optional<Drift> drift(double... ohms) {
    List<Measurement> list = new ArrayList<>();
    for (double one : ohms) {
      list.add(new Measurement(1, step(1, 2, 1), reading(one)));
    }
    return new Steadiness(new Accuracy(FOUR_BUS)).drift(1, list);
  }

  @Test
  void noiseIsNoDrift() {
    int[] found = {0};
    Trials.of(
        2000,
        random ->
            found[0] +=
                drift(random.doubles(5).map(d -> 0.01 + NOISE * random.nextGaussian()).toArray())
                        .isPresent()
                    ? 1
                    : 0);
    // One in ten thousand is stated.
    assertThat(found[0]).isLessThanOrEqualTo(3);
  }

  @Test
  void aReferenceThatWandersIsDriftWithTheSpanOfARectangle() {
    Drift drift = drift(0.01, 0.01 + 5 * NOISE, 0.01 + 10 * NOISE, 0.01 + 15 * NOISE).orElseThrow();
    assertThat(drift.span().value()).isBetween(14.9 * NOISE, 15.1 * NOISE);
    assertThat(drift.u()).isBetween(14.9 * NOISE / Math.sqrt(12), 15.1 * NOISE / Math.sqrt(12));
  }

  @Test
  void twoReadingsTellNoDrift() {
    assertThat(drift(0.01, 1)).isEmpty();
  }

  private static List<PathEstimate> triangle(Reading first) {
    Group group = new Group(new Accuracy(FOUR_BUS), FOUR_BUS);
    group.add(step(1, 2, 4), first);
    group.add(step(1, 3, 1), reading(0.01));
    group.add(step(2, 3, 1), reading(0.01));
    return group.solve(1);
  }

  @Test
  void aContactThatDoesNotHoldStillIsToldAndNotAveragedAway() {
    assertThat(triangle(reading(0.01, 0.21, 0.01, 0.21)))
        .filteredOn(PathEstimate::unstable)
        .extracting(PathEstimate::contact)
        .containsExactlyInAnyOrder(pad(1), pad(2));
    assertThat(triangle(reading(0.01, 0.01 + NOISE, 0.01 - NOISE, 0.01)))
        .noneMatch(PathEstimate::unstable);
  }

  @Test
  void driftIsALineOfTheBudget() {
    Group still = new Group(new Accuracy(FOUR_BUS), FOUR_BUS);
    Group drifting = new Group(new Accuracy(FOUR_BUS), FOUR_BUS, 20 * NOISE);
    for (Group group : List.of(still, drifting)) {
      group.add(step(1, 2, 1), reading(0.01));
    }
    assertThat(drifting.solve(1).get(0).ohms().orElseThrow().u())
        .isGreaterThan(5 * still.solve(1).get(0).ohms().orElseThrow().u());
  }
}
