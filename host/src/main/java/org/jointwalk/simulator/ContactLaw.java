package org.jointwalk.simulator;

import org.jointwalk.fixture.ProbeQuality;

/** How the resistance of a landed probe is spread. */
public enum ContactLaw {
  /** Lognormal with the mean and standard deviation that the fixture states. */
  LOGNORMAL(0, 1),
  /** The same, but one landing in a hundred is ten times as bad. */
  HEAVY_TAIL(0.01, 10);

  /** Share of the variance of the logarithm that stays with the probe from seating to seating. */
  private static final double OF_PROBE = 0.4;

  private final double badShare;
  private final double timesAsBad;

  ContactLaw(double badShare, double timesAsBad) {
    this.badShare = badShare;
    this.timesAsBad = timesAsBad;
  }

  /** Resistance of one landing in ohm. */
  double ohms(ProbeQuality quality, Draw probe, Draw landing) {
    double mean = quality.typical().value();
    if (mean == 0) {
      return 0;
    }
    double ratio = quality.sd().value() / mean;
    double variance = StrictMath.log1p(ratio * ratio);
    double logarithm =
        StrictMath.log(mean)
            - variance / 2
            + StrictMath.sqrt(OF_PROBE * variance) * probe.gaussian()
            + StrictMath.sqrt((1 - OF_PROBE) * variance) * landing.at("spread").gaussian();
    double times = landing.at("bad").uniform() < badShare ? timesAsBad : 1;
    return times * StrictMath.exp(logarithm);
  }
}
