package org.jointwalk.landing;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;
import java.util.stream.DoubleStream;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.job.Blame;
import org.jointwalk.job.Blame.Cause;
import org.jointwalk.job.Landed;
import org.jointwalk.job.ProbeState;
import org.jointwalk.job.ProbeState.Advice;
import org.jointwalk.landing.Landings.Rates;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Plate;
import org.junit.jupiter.api.Test;

class LandingsTest {

  private static final ProbeQuality PROBES = new ProbeQuality(new Ohms(20e-3), new Ohms(10e-3));
  private static final double BAR = 0.95;

  private static Blame blame(double... ohms) {
    List<Estimate> seatings =
        DoubleStream.of(ohms).mapToObj(value -> Estimate.known(value, 1e-3)).toList();
    return Landings.blame(seatings, PROBES, Rates.ASSUMED);
  }

  @Test
  void steadyExcessIsTheJoints() {
    assertThat(blame(0.520, 0.514, 0.531).named(BAR)).contains(Cause.JOINT);
  }

  @Test
  void restlessExcessIsTheProbes() {
    assertThat(blame(0.220, 1.4, 0.531).named(BAR)).contains(Cause.PROBE);
  }

  @Test
  void oneBadSeatingIsOneLanding() {
    assertThat(blame(0.019, 0.9, 0.025).named(BAR)).contains(Cause.SPORADIC);
  }

  @Test
  void ordinaryContactsAreSound() {
    assertThat(blame(0.019, 0.015, 0.025).named(BAR)).contains(Cause.SOUND);
  }

  @Test
  void oneSeatingNamesNothing() {
    assertThat(blame(2.0).named(BAR)).isEmpty();
    assertThat(blame(0.015).named(BAR)).isEmpty();
  }

  @Test
  void orderOfSeatingsDoesNotMatter() {
    assertThat(blame(0.2, 0.02, 0.3).joint())
        .isCloseTo(blame(0.3, 0.2, 0.02).joint(), org.assertj.core.data.Offset.offset(1e-9));
  }

  private static Contact probe(int number) {
    return new Contact.Pad(Plate.OVER, String.format(java.util.Locale.ROOT, "N%03d", number));
  }

  /** Passes in which the first probe has risen from one of them on, and the second misses. */
  private static List<Landed> passes(int count, int from, int misses) {
    RandomGenerator random = new SplittableRandom(11);
    List<Landed> passes = new ArrayList<>();
    for (int pass = 0; pass < count; pass++) {
      Map<Contact, Double> ohms = new LinkedHashMap<>();
      Map<Contact, Integer> landings = new LinkedHashMap<>();
      for (int p = 0; p < 60; p++) {
        double rise = p == 0 && pass >= from ? 1 : 0;
        ohms.put(probe(p), Math.exp(0.35 * random.nextGaussian() + rise));
        landings.put(probe(p), 1);
      }
      passes.add(
          new Landed(
              2, ohms, landings, pass < misses ? Map.of(probe(1), 1) : Map.of(), ohms.keySet()));
    }
    return passes;
  }

  private static ProbeState state(List<Landed> passes, int number) {
    return Landings.states(passes).stream()
        .filter(s -> s.contact().equals(probe(number)))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void probeThatHasRisenIsToBeCleanedAndNoOtherIs() {
    List<ProbeState> states = Landings.states(passes(60, 40, 0));

    assertThat(states.stream().filter(s -> s.advice() == Advice.CLEAN).map(ProbeState::contact))
        .containsExactly(probe(0));
  }

  @Test
  void probeThatOftenMissesIsToBeCleaned() {
    assertThat(state(passes(30, 30, 8), 1).advice()).isEqualTo(Advice.CLEAN);
    assertThat(state(passes(30, 30, 1), 1).advice()).isEqualTo(Advice.FINE);
  }

  @Test
  void pressingsAreCountedOverPasses() {
    assertThat(state(passes(30, 30, 0), 5).pressings()).isEqualTo(60);
  }

  @Test
  void probesOfNoPassAreNone() {
    assertThat(Landings.states(List.of())).isEmpty();
  }
}
