package org.jointwalk.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicInteger;
import org.jointwalk.fixture.Scan;
import org.junit.jupiter.api.Test;

/** How fast results are received, for the record: the figures are printed and bind nobody. */
class RateTest {

  private static final int STEPS = 100_000;

  @Test
  void everyResultOfAFastFixtureArrives() throws Exception {
    PeerFixture peer = new PeerFixture(Bench.WIRED, Ticks.ofThisComputer());
    peer.stepNanos = 1_000;
    peer.window = 4096;
    peer.steps = 2_000;
    Scan scan = Bench.scan(STEPS);
    AtomicInteger kept = new AtomicInteger();
    try (Served served = Served.of(peer);
        LinkFixture fixture =
            LinkFixture.open(
                Ports.named(served.port(), LinkSettings.DEFAULTS),
                Bench.ASSEMBLY,
                Bench.WIRED,
                Ticks.ofThisComputer(),
                new SplittableRandom(5),
                LinkSettings.DEFAULTS)) {
      fixture.clamping();
      long begun = System.nanoTime();
      fixture.run(scan, batch -> kept.addAndGet(batch.readings().size()));
      double seconds = (System.nanoTime() - begun) / 1e9;
      System.out.printf(
          Locale.ROOT, "figure: %.0f results a second over TCP, peer included%n", STEPS / seconds);
    }
    assertThat(kept.get()).isEqualTo(STEPS);
  }
}
