package org.jointwalk.drawing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;

final class LabelsTest {

  @Test
  void placesStayWhereTheyLikeWhenThereIsRoom() {
    assertThat(Labels.spread(new double[] {10, 50, 90}, 20, 0, 100)).containsExactly(10, 50, 90);
  }

  @Test
  void neighboursShareTheirTrouble() {
    assertThat(Labels.spread(new double[] {50, 50}, 20, 0, 100)).containsExactly(40, 60);
  }

  @Test
  void orderGapAndBoundsHold() {
    Trials.of(
        200,
        random -> {
          int n = random.nextInt(1, 12);
          double gap = random.nextDouble(1, 8);
          double from = random.nextDouble(-20, 20);
          double to = from + (n - 1) * gap + random.nextDouble(0, 60);
          double[] wanted = random.doubles(n, from - 10, to + 10).sorted().toArray();
          double[] places = Labels.spread(wanted, gap, from, to);
          for (int i = 1; i < n; i++) {
            assertThat(places[i] - places[i - 1]).isGreaterThanOrEqualTo(gap - 1e-9);
          }
          assertThat(places[0]).isGreaterThanOrEqualTo(from - 1e-9);
          assertThat(places[n - 1]).isLessThanOrEqualTo(to + 1e-9);
          // Nobody can be moved alone and come nearer to its wish.
          double cost = cost(wanted, places);
          for (int i = 0; i < n; i++) {
            for (double step : new double[] {-0.01, 0.01}) {
              double[] moved = places.clone();
              moved[i] += step;
              boolean allowed =
                  moved[i] >= from
                      && moved[i] <= to
                      && (i == 0 || moved[i] - moved[i - 1] >= gap)
                      && (i == n - 1 || moved[i + 1] - moved[i] >= gap);
              if (allowed) {
                assertThat(cost(wanted, moved)).isGreaterThanOrEqualTo(cost - 1e-9);
              }
            }
          }
          assertThat(places).hasSize(n);
        });
  }

  private static double cost(double[] wanted, double[] places) {
    double sum = 0;
    for (int i = 0; i < wanted.length; i++) {
      sum += (wanted[i] - places[i]) * (wanted[i] - places[i]);
    }
    return sum;
  }

  @Test
  void numbersHaveTwoDecimalsAtMost() {
    assertThat(Svg.number(1.005)).isEqualTo("1");
    assertThat(Svg.number(-0.001)).isEqualTo("0");
    assertThat(Double.parseDouble(Svg.number(123.456))).isCloseTo(123.46, within(1e-12));
    assertThat(Svg.number(1e6)).isEqualTo("1000000");
  }
}
