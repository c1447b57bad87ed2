package org.jointwalk.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.jointwalk.fixture.FixtureException;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Lines that lose, damage and double what they carry, and cables that are pulled. */
class WeatherTest {

  private static final int STEPS = 600;
  private static final int LINES = 60;

  /** What became of a run. */
  private enum Ended {
    WHOLE,
    GIVEN_UP
  }

  private static Ended run(long seed, double odds) {
    Bench bench = new Bench();
    SplittableRandom random = new SplittableRandom(seed);
    PeerFixture peer = bench.peer;
    peer.losesOwn = m -> random.nextDouble() < odds;
    peer.losesHost = m -> random.nextDouble() < odds;
    peer.damagesOwn = m -> random.nextDouble() < odds;
    peer.doublesOwn = m -> random.nextDouble() < odds / 4;
    peer.at(random.nextInt(STEPS), peer::pullCable);
    Ended ended = Ended.WHOLE;
    try (LinkFixture fixture = bench.open()) {
      fixture.clamping();
      fixture.run(Bench.scan(STEPS), bench.kept::add);
    } catch (FixtureException e) {
      assertThat(e).isInstanceOf(FixtureException.Unreachable.class);
      ended = Ended.GIVEN_UP;
    }
    assertThat(bench.indices())
        .as("line %d", seed)
        .isEqualTo(IntStream.range(0, bench.indices().size()).boxed().toList())
        .hasSize(ended == Ended.WHOLE ? STEPS : bench.indices().size());
    assertThat(bench.voltages()).as("line %d", seed).isEqualTo(bench.indices());
    return ended;
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.002, 0.02, 0.1})
  void noReadingIsEverWrongLostOrKeptTwice(double odds) {
    long whole = IntStream.range(0, LINES).filter(seed -> run(seed, odds) == Ended.WHOLE).count();

    System.out.printf(Locale.ROOT, "figure: %d of %d lines at %.1f %%%n", whole, LINES, 100 * odds);
    assertThat(whole).isGreaterThan(odds < 0.05 ? LINES * 9 / 10 : 0);
  }
}
