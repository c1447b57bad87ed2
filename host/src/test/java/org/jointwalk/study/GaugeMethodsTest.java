package org.jointwalk.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.fixture.Gauge;
import org.junit.jupiter.api.Test;

/** The two methods of a gauge study against published results. */
class GaugeMethodsTest {

  /**
   * Ten parts by three appraisers in three trials: the example of AIAG, Measurement Systems
   * Analysis, 4th edition, chapter III section B. One line per appraiser and trial.
   */
  private static final double[][] AIAG = {
    {0.29, -0.56, 1.34, 0.47, -0.80, 0.02, 0.59, -0.31, 2.26, -1.36},
    {0.41, -0.68, 1.17, 0.50, -0.92, -0.11, 0.75, -0.20, 1.99, -1.25},
    {0.64, -0.58, 1.27, 0.64, -0.84, -0.21, 0.66, -0.17, 2.01, -1.31},
    {0.08, -0.47, 1.19, 0.01, -0.56, -0.20, 0.47, -0.63, 1.80, -1.68},
    {0.25, -1.22, 0.94, 1.03, -1.20, 0.22, 0.55, 0.08, 2.12, -1.62},
    {0.07, -0.68, 1.34, 0.20, -1.28, 0.06, 0.83, -0.34, 2.19, -1.50},
    {0.04, -1.38, 0.88, 0.14, -1.46, -0.29, 0.02, -0.46, 1.77, -1.49},
    {-0.11, -1.13, 1.09, 0.20, -1.07, -0.67, 0.01, -0.56, 1.45, -1.77},
    {-0.15, -0.96, 0.67, 0.11, -1.45, -0.49, 0.21, -0.49, 1.87, -2.16}
  };

  private static Readings table(double[][] lines, int operators, int trials) {
    List<List<List<Double>>> values = new ArrayList<>();
    for (int part = 0; part < lines[0].length; part++) {
      List<List<Double>> position = new ArrayList<>();
      for (int j = 0; j < operators; j++) {
        List<Double> cell = new ArrayList<>();
        for (int k = 0; k < trials; k++) {
          cell.add(lines[j * trials + k][part]);
        }
        position.add(cell);
      }
      values.add(position);
    }
    return new Readings(values);
  }

  @Test
  void averageAndRangeGivesThePublishedShares() {
    Ranges ranges = Ranges.of(table(AIAG, 3, 3));

    // AIAG MSA 4th ed., III-B: EV 0.20188, AV 0.22963, GRR 0.30575, PV 1.10456, TV 1.14610.
    assertThat(ranges.parts().repeatability()).isCloseTo(0.20188, within(5e-5));
    assertThat(ranges.parts().reproducibility()).isCloseTo(0.22963, within(5e-5));
    assertThat(ranges.parts().gauge()).isCloseTo(0.30575, within(5e-5));
    assertThat(ranges.parts().positions()).isCloseTo(1.10456, within(5e-5));
    assertThat(ranges.parts().total()).isCloseTo(1.14610, within(5e-5));
    // The same: 17.62, 20.04, 26.68 and 96.38 %, 5 categories; UCL of ranges 0.880, B part 4 above.
    assertThat(ranges.parts().percent(ranges.parts().repeatability()))
        .isCloseTo(17.62, within(0.01));
    assertThat(ranges.parts().percent(ranges.parts().reproducibility()))
        .isCloseTo(20.04, within(0.01));
    assertThat(ranges.parts().percent(ranges.parts().gauge())).isCloseTo(26.68, within(0.01));
    assertThat(ranges.parts().percent(ranges.parts().positions())).isCloseTo(96.38, within(0.01));
    assertThat(ranges.parts().categories()).isEqualTo(5);
    // The sheet multiplies rounded means.
    assertThat(ranges.mostRange()).isCloseTo(0.880, within(1e-3));
    assertThat(ranges.strange()).contains(new Ranges.Cell(3, 1));
  }

  @Test
  void analysisOfVarianceGivesThePublishedVariances() {
    Anova anova = Anova.of(table(AIAG, 3, 3));

    // AIAG MSA 4th ed., III-B, the same data; further digits recomputed by hand.
    assertThat(anova.position().squares()).isCloseTo(88.361934, within(1e-6));
    assertThat(anova.operator().squares()).isCloseTo(3.167262, within(1e-6));
    assertThat(anova.interaction().squares()).isCloseTo(0.358982, within(1e-6));
    assertThat(anova.within().squares()).isCloseTo(2.758933, within(1e-6));
    assertThat(anova.interaction().mean() / anova.within().mean()).isCloseTo(0.434, within(5e-4));
    assertThat(anova.pooled()).isTrue();
    assertThat(Math.pow(anova.parts().repeatability(), 2)).isCloseTo(0.0399733, within(1e-7));
    assertThat(Math.pow(anova.parts().reproducibility(), 2)).isCloseTo(0.0514553, within(1e-7));
    assertThat(Math.pow(anova.parts().positions(), 2)).isCloseTo(1.0864466, within(1e-7));
    assertThat(Math.pow(anova.parts().gauge(), 2)).isCloseTo(0.0914285, within(1e-7));
    assertThat(anova.parts().categories()).isEqualTo(4);
  }

  /**
   * Silicon resistivity, five instruments on five days: NIST Standard Reference Datasets, one-way
   * analysis of variance, SiRstv. One line per day.
   */
  private static final double[][] SIRSTV = {
    {196.3052, 196.3042, 196.1303, 196.2795, 196.2119},
    {196.1240, 196.3825, 196.2005, 196.1748, 196.1051},
    {196.1890, 196.1669, 196.2889, 196.1494, 196.1850},
    {196.2569, 196.3257, 196.0343, 196.1485, 196.0052},
    {196.3403, 196.0422, 196.1811, 195.9885, 196.2090}
  };

  @Test
  void oneFactorGivesTheCertifiedValues() {
    Anova anova = Anova.of(table(SIRSTV, 1, 5));

    // NIST StRD, SiRstv, certified values.
    assertThat(anova.position().freedom()).isEqualTo(4);
    assertThat(anova.within().freedom()).isEqualTo(20);
    assertThat(anova.position().squares()).isCloseTo(5.11462616e-2, within(1e-11));
    assertThat(anova.within().squares()).isCloseTo(2.16636560e-1, within(1e-11));
    assertThat(anova.position().mean() / anova.within().mean())
        .isCloseTo(1.18046237440255, within(1e-9));
    assertThat(Math.sqrt(anova.within().mean())).isCloseTo(0.104076068334656, within(1e-12));
  }

  @Test
  void interactionThatIsThereIsNotPooled() {
    // Designed: parts 10, 20, 30; appraisers 0, 5, -5; interaction of 4; readings one apart each
    // way. Calculated by hand: EV 2, interaction 23, appraisers 17, parts 92 (variances).
    double[] parts = {10, 20, 30};
    double[] people = {0, 5, -5};
    double[][] both = {{4, -4, 0}, {-4, 0, 4}, {0, 4, -4}};
    List<List<List<Double>>> values = new ArrayList<>();
    for (int i = 0; i < 3; i++) {
      List<List<Double>> position = new ArrayList<>();
      for (int j = 0; j < 3; j++) {
        double at = parts[i] + people[j] + both[i][j];
        position.add(List.of(at - 1, at + 1));
      }
      values.add(position);
    }

    Anova anova = Anova.of(new Readings(values));

    assertThat(anova.pooled()).isFalse();
    assertThat(Math.pow(anova.parts().repeatability(), 2)).isCloseTo(2, within(1e-9));
    assertThat(Math.pow(anova.parts().reproducibility(), 2)).isCloseTo(17 + 23, within(1e-9));
    assertThat(Math.pow(anova.parts().positions(), 2)).isCloseTo(92, within(1e-9));
  }

  @Test
  void limitWithoutRoomIsUnfit() {
    Gauge.Parts parts = new Gauge.Parts(0.01, 0, 0.1);

    assertThat(Study.against("a", 2, 0.05, parts).fitness()).isEqualTo(Gauge.Fitness.FIT);
    assertThat(Study.against("a", 0.2, 0.05, parts).fitness()).isEqualTo(Gauge.Fitness.WITH_CARE);
    assertThat(Study.against("a", 0.1, 0.05, parts).fitness()).isEqualTo(Gauge.Fitness.UNFIT);
    assertThat(Study.against("a", 0.05, 0.06, parts).fitness()).isEqualTo(Gauge.Fitness.UNFIT);
  }

  @Test
  void tableWithAGapIsRefused() {
    assertThatThrownBy(
            () -> new Readings(List.of(List.of(List.of(1.0, 2.0)), List.of(List.of(1.0)))))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
