package org.jointwalk.landing;

import java.util.List;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.job.Blame;
import org.jointwalk.landing.Landings.Rates;

/**
 * Weighs what a joint, a probe and one bad landing say of the readings of one pad over its
 * seatings. What a joint adds is the same in each; what a probe adds is drawn anew, so that a
 * steady excess is the joint's and a restless one the probe's. Immutable.
 */
final class Blaming {

  private static final int GRID = 400;

  /** Half the range of the integral over a faulty joint, in spreads of its logarithm. */
  private static final double REACH = 4;

  /** What no law explains is as probable under each, so that no cause wins by an underflow. */
  private static final double FLOOR = 1e-12;

  private final Rates rates;
  private final Spread good;
  private final Spread bad;

  /** No good contact is larger than this, in ohm. */
  private final double reach;

  Blaming(ProbeQuality probes, double u, double largest, Rates rates) {
    this.rates = rates;
    double mean = Math.max(probes.typical().value(), 1e-4);
    double ratio = Math.max(probes.sd().value(), mean * 0.05) / mean;
    double variance = Math.log1p(ratio * ratio);
    good = new Spread(mean * Math.exp(-variance / 2), Math.sqrt(variance), u, 20 * mean + 8 * u);
    reach = mean * Math.exp(5 * Math.sqrt(variance)) + 8 * u;
    bad = new Spread(rates.badProbeOhms(), rates.badProbeSigma(), u, largest + 8 * u);
  }

  Blame of(List<Double> ohms) {
    int n = ohms.size();
    double sound = 1 - rates.joint() - rates.probe() - rates.sporadic();
    sound *= ohms.stream().mapToDouble(this::good).reduce(1, (p, q) -> p * q);
    double probe = rates.probe() * ohms.stream().mapToDouble(this::bad).reduce(1, (p, q) -> p * q);
    double sporadic = 0;
    for (int worst = 0; worst < n; worst++) {
      double product = 1;
      for (int i = 0; i < n; i++) {
        product *= i == worst ? bad(ohms.get(i)) : good(ohms.get(i));
      }
      sporadic += product / n;
    }
    sporadic *= rates.sporadic();
    double joint = rates.joint() * joint(ohms);
    double sum = sound + joint + probe + sporadic;
    return new Blame(sound / sum, joint / sum, probe / sum, sporadic / sum, n);
  }

  private double joint(List<Double> ohms) {
    double sum = 0;
    // The readings pin the joint far better than its law does: the grid lies where they allow it.
    double least = ohms.stream().mapToDouble(x -> x).min().orElseThrow() + reach / 10;
    double low =
        Math.max(rates.badJointOhms() * Math.exp(-REACH * rates.badJointSigma()), least - reach);
    double high = Math.max(least, 2 * low);
    for (int i = 0; i < GRID; i++) {
      double r = low + (high - low) * (i + 0.5) / GRID;
      double z = Math.log(r / rates.badJointOhms()) / rates.badJointSigma();
      double density = Math.exp(-z * z / 2) / (Math.sqrt(2 * Math.PI) * rates.badJointSigma() * r);
      double product = density * (high - low) / GRID;
      for (double y : ohms) {
        product *= good(y - r);
      }
      sum += product;
    }
    return sum;
  }

  private double good(double ohms) {
    return good.at(ohms) + FLOOR;
  }

  private double bad(double ohms) {
    return bad.at(ohms) + FLOOR;
  }
}
