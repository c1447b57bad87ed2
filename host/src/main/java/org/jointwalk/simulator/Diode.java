package org.jointwalk.simulator;

/**
 * A junction with its series resistance: I = Is (exp((V - I Rs) / w) - 1), after Shockley. Beside
 * it lies a leakage of one picosiemens, so that nothing hangs on an exponent that has vanished.
 *
 * @param saturation Is in ampere, positive
 * @param slope w = n k T / q in volt, positive
 * @param series Rs in ohm, positive
 */
record Diode(double saturation, double slope, double series) {

  /** Leakage beside the junction, in siemens. */
  static final double LEAKAGE = 1e-12;

  private static final double BOLTZMANN_PER_CHARGE = 1.380649e-23 / 1.602176634e-19;

  Diode {
    if (!(saturation > 0) || !(slope > 0) || !(series > 0)) {
      throw new IllegalArgumentException(
          "a junction needs positive figures, not " + saturation + ", " + slope + ", " + series);
    }
  }

  /** The junction that drops these volts at this current. */
  static Diode dropping(double volts, double amps, double slope, double series) {
    return new Diode(amps / StrictMath.expm1((volts - amps * series) / slope), slope, series);
  }

  /**
   * The slope of a junction.
   *
   * @param ideality n
   * @param kelvin temperature
   */
  static double slope(double ideality, double kelvin) {
    return ideality * BOLTZMANN_PER_CHARGE * kelvin;
  }

  /** The voltage of the junction itself when this voltage lies across junction and series part. */
  double inner(double volts) {
    double scale = series * saturation;
    double u = volts > 0 ? Math.min(volts, slope * StrictMath.log1p(volts / scale)) : volts;
    // From the right of the root of a convex function Newton's steps never pass it.
    for (int i = 0; i < 50; i++) {
      double e = StrictMath.exp(u / slope);
      double step = (u + scale * (e - 1) - volts) / (1 + scale * e / slope);
      u -= step;
      if (Math.abs(step) <= 1e-14 * (slope + Math.abs(u))) {
        break;
      }
    }
    return u;
  }

  /** Current at the inner voltage u of a junction that has {@code volts} across all of it. */
  double amps(double u, double volts) {
    return saturation * StrictMath.expm1(u / slope) + LEAKAGE * volts;
  }

  /** Slope of the current against the outer voltage, at the inner voltage u, in siemens. */
  double siemens(double u) {
    double own = saturation * StrictMath.exp(u / slope) / slope;
    return own / (1 + own * series) + LEAKAGE;
  }
}
