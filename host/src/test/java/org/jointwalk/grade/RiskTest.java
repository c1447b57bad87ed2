package org.jointwalk.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.jointwalk.job.Decision;
import org.jointwalk.quantity.Contribution;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Shape;
import org.junit.jupiter.api.Test;

class RiskTest {

  private final Risk risk = new Risk();

  private static Estimate with(double value, double u, double dof) {
    return Estimate.of(value, List.of(new Contribution("all", u, dof)));
  }

  /** Student's t as tabulated in JCGM 100:2008, Table G.2 (from memory, computed anew). */
  @Test
  void quantilesAreThoseOfTheGuidesTable() {
    double[][] table = {
      {1, 12.71, 63.66}, {2, 4.30, 9.92}, {4, 2.78, 4.60}, {10, 2.23, 3.17}, {16, 2.12, 2.92}
    };
    for (double[] row : table) {
      assertThat(risk.quantile(0.025, row[0])).isCloseTo(row[1], within(0.005));
      assertThat(risk.quantile(0.005, row[0])).isCloseTo(row[2], within(0.005));
    }
    assertThat(risk.quantile(0.025, Double.POSITIVE_INFINITY)).isCloseTo(1.960, within(5e-4));
    // H.1 of the Guide: 16.7 degrees of freedom count as 16.
    assertThat(risk.quantile(0.005, 16.75)).isEqualTo(risk.quantile(0.005, 16));
  }

  /** JCGM 101:2008, 9.2.2: four unit Gaussians have u = 2.00 and lie within 3.92. */
  @Test
  void fourGaussiansHaveTheIntervalOfTheSupplement() {
    Contribution unit = Contribution.known("one of four", 1);
    Decision decision = risk.decision(Estimate.of(0, List.of(unit, unit, unit, unit)), 100, 0.05);
    assertThat(decision.high()).isCloseTo(3.92, within(0.005));
    assertThat(decision.low()).isCloseTo(-3.92, within(0.005));
  }

  /**
   * Guard bands w = k u of a stated specific risk: 1.6449 for 5 %, 1.9600 for 2.5 % (the w = U of
   * ILAC-G8:09/2019), 2.3263 for 1 %; with four degrees of freedom 3.7469 for 1 %.
   */
  @Test
  void guardsAreTheQuantilesOfTheirRisks() {
    Estimate many = with(0, 1, Double.POSITIVE_INFINITY);
    assertThat(risk.understated(many, 0.05)).isCloseTo(1.6449, within(5e-5));
    assertThat(risk.understated(many, 0.025)).isCloseTo(1.9600, within(5e-5));
    assertThat(risk.understated(many, 0.01)).isCloseTo(2.3263, within(5e-5));
    assertThat(risk.overstated(many, 0.05)).isCloseTo(1.6449, within(5e-5));
    assertThat(risk.understated(with(0, 1, 4), 0.01)).isCloseTo(3.7469, within(5e-5));
  }

  /**
   * JCGM 106:2012, a breakdown voltage of -5.47 V with 0.05 V below a limit of -5.40 V conforms
   * with probability 0.92 (from memory): a guard of that risk reaches just to the limit.
   */
  @Test
  void aGuardOfTheConformanceRiskEndsAtTheLimit() {
    Estimate zener = with(-5.47, 0.05, Double.POSITIVE_INFINITY);
    assertThat(zener.value() + risk.understated(zener, 1 - 0.919243))
        .isCloseTo(-5.40, within(1e-5));
  }

  @Test
  void aContactAloneHasTheIntervalOfItsLognormalLaw() {
    double mean = 0.02;
    double sd = 0.01;
    Estimate contact =
        Estimate.of(
            0,
            List.of(
                new Contribution(
                    "contact",
                    sd,
                    Double.POSITIVE_INFINITY,
                    Contribution.Type.B,
                    Shape.lognormal(mean, sd, 0))));
    double variance = Math.log(1 + sd * sd / mean / mean);
    double middle = Math.log(mean) - variance / 2;
    for (double p : new double[] {0.001, 0.025, 0.05, 0.2}) {
      double z = risk.quantile(p, Double.POSITIVE_INFINITY);
      double high = Math.exp(middle + Math.sqrt(variance) * z) - mean;
      double low = Math.exp(middle - Math.sqrt(variance) * z) - mean;
      assertThat(risk.overstated(contact, p)).isCloseTo(high, within(1e-9));
      assertThat(risk.understated(contact, p)).isCloseTo(-low, within(1e-9));
    }
  }

  @Test
  void contactsThatFollowNoLawWidenTheSideOnWhichTheyLie() {
    Estimate plain = with(0.3, 0.01, Double.POSITIVE_INFINITY);
    Estimate gross =
        Estimate.of(
            0.3,
            List.of(
                new Contribution(
                    "contact",
                    0.01,
                    Double.POSITIVE_INFINITY,
                    Contribution.Type.B,
                    new Shape(0, 0.01))));
    assertThat(risk.overstated(gross, 0.05)).isGreaterThan(risk.overstated(plain, 0.05));
    assertThat(risk.understated(gross, 0.05)).isEqualTo(risk.understated(plain, 0.05));
  }

  @Test
  void allLooksTogetherSpendNoMoreThanTheRisk() {
    double spent = 0;
    for (int looks = 1; looks <= 50; looks++) {
      double one = Risk.ofLook(0.05, looks);
      assertThat(one).isPositive();
      spent += one;
    }
    assertThat(spent).isLessThanOrEqualTo(0.05);
    assertThat(Risk.ofLook(0.05, 1)).isCloseTo(0.04, within(1e-12));
  }
}
