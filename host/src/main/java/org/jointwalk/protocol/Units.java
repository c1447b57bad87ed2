package org.jointwalk.protocol;

/** Numbers of the program to the integers of the line and back. Stateless. */
final class Units {

  /** Divided by, not multiplied with its inverse: what fits exactly comes back to the last bit. */
  private static final double VOLT = 1e8;

  private static final double AMP = 1e10;

  private Units() {}

  /** Volts in 10 nV, to the nearest that there is (M3). */
  static int volt(double volts) {
    return nearest(volts * VOLT);
  }

  /** Amperes in 100 pA, to the nearest that there is (M3). */
  static int amp(double amps) {
    return nearest(amps * AMP);
  }

  static double volts(int volt) {
    return volt / VOLT;
  }

  static double amps(int amp) {
    return amp / AMP;
  }

  private static int nearest(double value) {
    if (Double.isNaN(value)) {
      throw new IllegalArgumentException("a reading that has no value has a status instead");
    }
    return (int) Math.max(-Integer.MAX_VALUE, Math.min(Integer.MAX_VALUE, Math.rint(value)));
  }

  /**
   * A number that is not negative in a finer or coarser unit, rounded.
   *
   * @throws IllegalArgumentException when it does not fit 32 bits
   */
  static long fine(String what, double value, double perUnit) {
    double scaled = Math.rint(value * perUnit);
    if (!(scaled >= 0 && scaled <= Ranges.U32)) {
      throw new IllegalArgumentException(
          what + " is " + value + "; allowed is 0 to " + Ranges.U32 / perUnit);
    }
    return (long) scaled;
  }
}
