package org.jointwalk.quantity;

import java.util.List;

/**
 * A measured value with its standard uncertainty, degrees of freedom and budget, as the Guide to
 * the Expression of Uncertainty in Measurement (JCGM 100:2008) asks. The component that holds an
 * estimate names the unit.
 *
 * @param value best estimate, finite
 * @param u combined standard uncertainty, in the unit of the value
 * @param dof effective degrees of freedom (Welch-Satterthwaite), positive, may be infinite
 * @param budget the independent contributions that u was combined from; empty when only u is known
 */
public record Estimate(double value, double u, double dof, List<Contribution> budget) {

  public Estimate {
    budget = List.copyOf(budget);
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("an estimate must be finite, not " + value);
    }
    if (!(u >= 0) || Double.isInfinite(u)) {
      throw new IllegalArgumentException("u must be finite and not negative, not " + u);
    }
    if (!(dof > 0)) {
      throw new IllegalArgumentException("dof must be positive, not " + dof);
    }
  }

  /** A value whose standard uncertainty is known from elsewhere. */
  public static Estimate known(double value, double u) {
    return new Estimate(value, u, Double.POSITIVE_INFINITY, List.of());
  }

  /**
   * Combines independent contributions in quadrature; the degrees of freedom follow
   * Welch-Satterthwaite (JCGM 100:2008, G.4.1).
   */
  public static Estimate of(double value, List<Contribution> budget) {
    double variance = 0;
    double fourth = 0;
    for (Contribution c : budget) {
      double square = c.u() * c.u();
      variance += square;
      fourth += square * square / c.dof();
    }
    double dof = fourth > 0 ? variance * variance / fourth : Double.POSITIVE_INFINITY;
    return new Estimate(value, Math.sqrt(variance), dof, budget);
  }

  /**
   * Third standardised moment of the error, value less truth: positive when a value that is too
   * large is too large by more.
   */
  public double skewness() {
    double third = 0;
    for (Contribution c : budget) {
      third += c.u() * c.u() * c.u() * c.shape().skewness();
    }
    return u > 0 ? third / (u * u * u) : 0;
  }

  /** Share of values that lie far above the truth and follow no law. */
  public double gross() {
    double gross = 0;
    for (Contribution c : budget) {
      gross += c.shape().gross();
    }
    return Math.min(1, gross);
  }
}
