package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class LineFaultsTest {

  private static final byte[] FRAME = {1, 2, 3, 4, 5, 6, 7, 8, 9, 0};

  private static LineFaults line(String weather, long seed) {
    return new LineFaults(LineWeather.of(weather), new SplittableRandom(seed));
  }

  /** What arrives of a frame a millisecond, fetched every millisecond. */
  private static byte[] carried(LineFaults line, int frames) {
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    for (int i = 0; i < frames; i++) {
      line.toDevice(FRAME, i * 1_000L);
      all.writeBytes(line.atDevice(i * 1_000L));
    }
    all.writeBytes(line.atDevice(Long.MAX_VALUE / 2));
    return all.toByteArray();
  }

  @Test
  void fineLineCarriesEveryByteAtOnce() {
    LineFaults line = new LineFaults(LineWeather.FINE, new SplittableRandom(1));
    line.toDevice(FRAME, 0);
    line.toHost(FRAME, 0);

    assertThat(line.atDevice(0)).isEqualTo(FRAME);
    assertThat(line.atHost(0)).isEqualTo(FRAME);
    assertThat(line.next()).isEqualTo(Long.MAX_VALUE);
  }

  @Test
  void sameSeedDoesTheSameAndAnotherSeedSomethingElse() {
    String all =
        "drop=0.1,corrupt=0.1,duplicate=0.1,garbage=0.1,delay=0.1:5,rate=115200,latency=usb";

    assertThat(carried(line(all, 3), 500)).isEqualTo(carried(line(all, 3), 500));
    assertThat(carried(line(all, 3), 500)).isNotEqualTo(carried(line(all, 4), 500));
  }

  @Test
  void sharesAreThoseThatWereAskedFor() {
    assertThat(carried(line("drop=0.2", 1), 5_000).length / 10).isBetween(3_850, 4_150);
    assertThat(carried(line("duplicate=0.2", 1), 5_000).length / 10).isBetween(5_850, 6_150);
    byte[] corrupt = carried(line("corrupt=0.2", 1), 5_000);
    int whole = 0;
    for (int i = 0; i < 5_000; i++) {
      whole += Arrays.equals(Arrays.copyOfRange(corrupt, 10 * i, 10 * i + 10), FRAME) ? 1 : 0;
    }
    assertThat(whole).isBetween(3_850, 4_150);
    assertThat(carried(line("garbage=0.2", 1), 5_000).length).isBetween(65_000, 76_000);
  }

  @Test
  void bytesTakeTheTimeOfTheirRate() {
    LineFaults line = line("rate=115200", 1);
    for (int i = 0; i < 100; i++) {
      line.toHost(FRAME, 0);
    }

    // A thousand bytes of ten bits each at 115,200 bit/s.
    assertThat(line.atHost(86_000)).hasSizeLessThan(1_000);
    assertThat(line.atHost(87_000)).isNotEmpty();
    assertThat(line.next()).isEqualTo(Long.MAX_VALUE);
  }

  @Test
  void delayHoldsBackWhatFollows() {
    LineFaults line = line("stall=1:400", 1);
    line.toDevice(FRAME, 0);

    assertThat(line.next()).isEqualTo(400_000);
    assertThat(line.atDevice(399_999)).isEmpty();
    assertThat(line.atDevice(400_000)).isEqualTo(FRAME);
  }

  @Test
  void latencyIsTwoMillisecondsAtLeastAndNowAndThenMuchMore() {
    LineFaults line = line("latency=usb", 1);
    int late = 0;
    int most = 20_000;
    for (int i = 0; i < most; i++) {
      long sent = i * 200_000L;
      line.toDevice(FRAME, sent);
      long took = line.next() - sent;
      line.atDevice(sent + took);
      assertThat(took).isBetween(2_000L, 168_000L);
      late += took >= 18_000 ? 1 : 0;
    }
    assertThat(late).isBetween(5_600, 6_400);
  }

  @Test
  void lineThatVanishesLosesWhatIsOnItsWayAndComesBack() {
    LineFaults line = line("vanish=5:10,delay=1:3", 1);
    line.toDevice(FRAME, 4_000);

    assertThat(line.there(4_999)).isTrue();
    assertThat(line.there(5_000)).isFalse();
    line.toDevice(FRAME, 6_000);
    assertThat(line.atDevice(14_000)).isEmpty();
    assertThat(line.there(15_000)).isTrue();
    assertThat(line.atDevice(20_000)).isEmpty();
    line.toDevice(FRAME, 20_000);
    assertThat(line.atDevice(23_000)).isEqualTo(FRAME);
  }

  @Test
  void whatCannotBeMeantIsToldWithWhatIsAllowed() {
    for (String typed :
        new String[] {
          "",
          "drop",
          "drop=",
          "drop=2",
          "rain=1",
          "rate=300",
          "delay=0.1",
          "delay=1:x",
          "vanish=-1:3",
          "latency=no",
          "drop=0.1,,"
        }) {
      assertThatThrownBy(() -> LineWeather.of(typed))
          .as(typed)
          .isInstanceOf(IllegalArgumentException.class);
    }
    assertThatThrownBy(() -> LineWeather.of("rain=1")).hasMessageContaining("drop=0.01");
  }
}
