package org.jointwalk.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntFunction;
import org.junit.jupiter.api.Test;

/**
 * Propagation against JCGM 100:2008 (the Guide to the Expression of Uncertainty in Measurement),
 * Annex H. Data and published results as transcribed in MSLNZ/GTC, examples/GUM_H1.py and
 * GUM_H2.py; figures with more digits were computed anew from the data.
 */
class BudgetTest {

  /** H.2: volt, milliampere, radian, read together five times. */
  private static final double[][] H2 = {
    {5.007, 19.663, 1.0456},
    {4.994, 19.639, 1.0438},
    {5.005, 19.640, 1.0468},
    {4.990, 19.685, 1.0428},
    {4.999, 19.678, 1.0433}
  };

  @Test
  void theEndGaugeOfAnnexH1HasItsPublishedUncertainty() {
    double lengthNm = 50_000_623;
    Estimate gauge =
        Estimate.of(
            lengthNm + 215,
            List.of(
                new Contribution("standard", 25, 18),
                new Contribution("random part of the comparison", 5.8, 24),
                new Contribution("fixed part of the comparison", 3.9, 5),
                new Contribution("systematic part of the comparison", 6.7, 8),
                new Contribution("difference of expansion", 50_000_623 * 0.1 * 0.58e-6, 50),
                new Contribution("difference of temperature", 50_000_623 * 11.5e-6 * 0.029, 2)));
    // Published: 50 000 838 nm, 32 nm, 16.7 degrees of freedom.
    assertThat(gauge.value()).isEqualTo(50_000_838);
    assertThat(gauge.u()).isCloseTo(32, within(0.5));
    assertThat(gauge.dof()).isBetween(16.6, 16.8);
  }

  /** Equal contributions of nu degrees of freedom each have N nu together (JCGM 100, G.4.1). */
  @Test
  void equalContributionsAddTheirDegreesOfFreedom() {
    Contribution one = new Contribution("one", 3, 7);
    assertThat(Estimate.of(0, List.of(one, one, one, one)).dof()).isCloseTo(28, within(1e-9));
  }

  private interface Slopes {

    /** Sensitivities to volt, ampere and radian. */
    double[] at(double volts, double amps, double phi);
  }

  private static double mean(int column) {
    double sum = 0;
    for (double[] row : H2) {
      sum += row[column];
    }
    return sum / H2.length;
  }

  /** What each joint observation does to the mean of one quantity, with its sign. */
  private static List<Influence> influences(int column, double unit, IntFunction<Object> thing) {
    List<Influence> influences = new ArrayList<>();
    double mean = mean(column);
    for (int k = 0; k < H2.length; k++) {
      double effect = (H2[k][column] - mean) * unit / Math.sqrt(H2.length * (H2.length - 1.0));
      influences.add(Influence.known("scatter", thing.apply(k), effect));
    }
    return influences;
  }

  private static Estimate h2(double value, Slopes slopes, boolean together) {
    double volts = mean(0);
    double amps = mean(1) / 1e3;
    double phi = mean(2);
    double[] slope = slopes.at(volts, amps, phi);
    double[] units = {1, 1e-3, 1};
    Budget budget = new Budget();
    for (int column = 0; column < 3; column++) {
      int own = column;
      budget.add(
          slope[column], influences(column, units[column], k -> together ? k : List.of(own, k)));
    }
    return budget.estimate(value);
  }

  private static double[] resistance(double v, double i, double p) {
    return new double[] {
      Math.cos(p) / i, -v * Math.cos(p) / (i * i), -v * Math.sin(p) / i,
    };
  }

  private static double[] reactance(double v, double i, double p) {
    return new double[] {
      Math.sin(p) / i, -v * Math.sin(p) / (i * i), v * Math.cos(p) / i,
    };
  }

  private static double[] impedance(double v, double i, double p) {
    return new double[] {1 / i, -v / (i * i), 0};
  }

  @Test
  void quantitiesReadTogetherHaveThePublishedUncertaintiesOfAnnexH2() {
    double z = mean(0) / mean(1) * 1e3;
    // Published: R 127.732 ohm with 0.071, X 219.847 with 0.295, Z 254.260 with 0.236.
    Estimate r = h2(z * Math.cos(mean(2)), BudgetTest::resistance, true);
    assertThat(r.value()).isCloseTo(127.732, within(5e-4));
    assertThat(r.u()).isCloseTo(0.0710714, within(1e-6));
    Estimate x = h2(z * Math.sin(mean(2)), BudgetTest::reactance, true);
    assertThat(x.value()).isCloseTo(219.847, within(6e-4));
    assertThat(x.u()).isCloseTo(0.295, within(1e-3));
    Estimate whole = h2(z, BudgetTest::impedance, true);
    assertThat(whole.value()).isCloseTo(254.260, within(5e-4));
    assertThat(whole.u()).isCloseTo(0.2363361, within(1e-6));
  }

  @Test
  void withoutWhatTheyShareTheUncertaintyOfAnnexH2IsPlainlyWrong() {
    double r = mean(0) / mean(1) * 1e3 * Math.cos(mean(2));
    assertThat(h2(r, BudgetTest::resistance, false).u()).isGreaterThan(2 * 0.071);
  }

  @Test
  void whatOneThingDoesToTwoReadingsAddsWithItsSign() {
    Influence scale = Influence.known("scale", "range", 0.3);
    Budget difference = new Budget();
    difference.add(1, List.of(scale));
    difference.add(-1, List.of(scale));
    assertThat(difference.estimate(0).u()).isZero();
    Budget sum = new Budget();
    sum.add(1, List.of(scale));
    sum.add(1, List.of(scale));
    assertThat(sum.estimate(0).u()).isCloseTo(0.6, within(1e-12));
    Budget apart = new Budget();
    apart.add(1, List.of(scale));
    apart.add(1, List.of(Influence.known("scale", "other range", 0.3)));
    assertThat(apart.estimate(0).u()).isCloseTo(0.3 * Math.sqrt(2), within(1e-12));
    assertThat(apart.estimate(0).budget()).hasSize(1);
  }

  @Test
  void theSkewnessOfASumIsThatOfItsParts() {
    // A lognormal of mean 2 and deviation 1: 3 / 2 + 1 / 8.
    Shape shape = Shape.lognormal(2, 1, 0);
    assertThat(shape.skewness()).isCloseTo(1.625, within(1e-12));
    Budget budget = new Budget();
    for (int i = 0; i < 4; i++) {
      budget.add(
          1,
          List.of(
              new Influence(
                  "contact", i, 1, Double.POSITIVE_INFINITY, Contribution.Type.B, shape)));
    }
    // Third moments add, so that four have half of it.
    assertThat(budget.estimate(0).skewness()).isCloseTo(1.625 / 2, within(1e-12));
  }
}
