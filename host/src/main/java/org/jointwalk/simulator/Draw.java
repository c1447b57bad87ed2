package org.jointwalk.simulator;

/**
 * A random draw that belongs to a name instead of to a place in a sequence: the same seed and the
 * same names give the same value whatever was drawn before. Built on the finaliser of SplitMix64
 * (Steele, Lea and Flood 2014) and on strict mathematics, so that two machines agree to the last
 * bit. Immutable.
 */
record Draw(long key) {

  private static final long GOLDEN = 0x9E3779B97F4A7C15L;
  private static final double UNIT = 0x1.0p-53;

  /** The draw that belongs to a number below this one. */
  Draw at(long number) {
    return new Draw(mix(key + GOLDEN * (2 * number + 1)));
  }

  /** The draw that belongs to a name below this one. */
  Draw at(String name) {
    long hash = 0xcbf29ce484222325L;
    for (int i = 0; i < name.length(); i++) {
      hash = (hash ^ name.charAt(i)) * 0x100000001b3L;
    }
    return new Draw(mix(key + GOLDEN * mix(hash)));
  }

  /** Uniform in (0, 1). */
  double uniform() {
    return ((mix(key + GOLDEN) >>> 11) + 0.5) * UNIT;
  }

  /** Uniform between two values. */
  double uniform(double from, double to) {
    return from + (to - from) * uniform();
  }

  /** Standard normal. */
  double gaussian() {
    double second = ((mix(key + 2 * GOLDEN) >>> 11) + 0.5) * UNIT;
    return StrictMath.sqrt(-2 * StrictMath.log(uniform()))
        * StrictMath.cos(2 * StrictMath.PI * second);
  }

  /** Lognormal with this median and this standard deviation of the logarithm. */
  double lognormal(double median, double sigma) {
    return median * StrictMath.exp(sigma * gaussian());
  }

  private static long mix(long z) {
    long a = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
    long b = (a ^ (a >>> 27)) * 0x94D049BB133111EBL;
    return b ^ (b >>> 31);
  }
}
