package org.jointwalk.grade;

import java.util.HashMap;
import java.util.Map;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import org.jointwalk.job.Decision;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;

/**
 * How far an estimate may lie from the truth, at a stated risk. Not thread-safe.
 *
 * <p>The error of an estimate is taken to be a shifted lognormal with the estimate's own standard
 * uncertainty and skewness: exact when the probe's contact, which only adds, outweighs everything
 * else, and the normal law when it does not matter. Finite degrees of freedom put Student's
 * quantile in the place of the normal one (JCGM 100:2008, G.3). A share of contacts may be far
 * worse than any law tells; a decision gives them their whole share of its risk, an interval, which
 * is neither to be too short nor too long, half of it.
 */
final class Risk {

  /** Risk of a wrong call at the limit (JCGM 106:2012, guarded acceptance and rejection). */
  static final double AT_LIMIT = 0.05;

  /** Of a risk, what the first clamping spends. */
  private static final double FIRST = 0.8;

  /** Coverage of the intervals that are stated. */
  static final double LEVEL = 0.95;

  private static final double LARGE_DOF = 1e4;

  /** However many gross values there may be, this part of a risk is left for the others. */
  private static final double LEAST_PART = 0.1;

  private record Asked(double risk, double dof) {}

  private final Map<Asked, Double> quantiles = new HashMap<>();

  /**
   * What the last of some clampings may spend of a risk of clearing a path that is above its limit:
   * each look is one more chance, so that a first one spends four fifths, and every later one half
   * of what is left. All together they stay below the risk, however many there are.
   */
  static double ofLook(double risk, int looks) {
    return looks <= 1 ? FIRST * risk : (1 - FIRST) * risk / Math.pow(2, looks - 1.0);
  }

  /** What a value may be too large by, in ohm: it is by more with no more than this risk. */
  double overstated(Estimate ohms, double risk) {
    double left = Math.max(LEAST_PART * risk, risk - ohms.gross());
    return ohms.u() * standardised(ohms, quantile(left, ohms.dof()));
  }

  /** What a value may be too small by, in ohm: it is by more with no more than this risk. */
  double understated(Estimate ohms, double risk) {
    return -ohms.u() * standardised(ohms, -quantile(risk, ohms.dof()));
  }

  /**
   * The interval and the guard of a value beside its limit.
   *
   * @param risk of the guard
   */
  Decision decision(Estimate ohms, double limit, double risk) {
    double tail = (1 - LEVEL) / 2;
    double far = Math.max(LEAST_PART * tail, tail - ohms.gross() / 2);
    double over = ohms.u() * standardised(ohms, quantile(far, ohms.dof()));
    double guard = ohms.value() > limit ? overstated(ohms, risk) : understated(ohms, risk);
    return new Decision(
        ohms.value() - over,
        ohms.value() + understated(ohms, tail),
        LEVEL,
        new Ohms(Math.max(0, guard)),
        risk);
  }

  /**
   * The quantile of a risk for an uncertainty known with so many degrees of freedom, of which only
   * whole ones count (JCGM 100:2008, G.4.1).
   */
  double quantile(double risk, double dof) {
    return quantiles.computeIfAbsent(
        new Asked(risk, dof < LARGE_DOF ? Math.max(1, Math.floor(dof)) : LARGE_DOF),
        asked ->
            asked.dof < LARGE_DOF
                ? TDistribution.of(asked.dof).inverseSurvivalProbability(risk)
                : NormalDistribution.of(0, 1).inverseSurvivalProbability(risk));
  }

  /** A normal quantile to that of the shifted lognormal with mean 0, variance 1. */
  private static double standardised(Estimate ohms, double normal) {
    double skewness = ohms.skewness();
    double variance = logVariance(Math.abs(skewness));
    if (variance < 1e-6) {
      return normal;
    }
    double s = Math.sqrt(variance);
    double sign = Math.signum(skewness);
    return sign * Math.expm1(s * sign * normal - variance / 2) / Math.sqrt(Math.expm1(variance));
  }

  /**
   * The variance of the logarithm of a lognormal with this skewness, (w + 2) sqrt(w - 1) where w is
   * its exponential: with the hyperbolic sine for the root of the cubic.
   */
  private static double logVariance(double skewness) {
    double root = 2 * Math.sinh(asinh(skewness / 2) / 3);
    return Math.log1p(root * root);
  }

  private static double asinh(double x) {
    return Math.log(x + Math.sqrt(x * x + 1));
  }
}
