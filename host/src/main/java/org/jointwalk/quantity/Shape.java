package org.jointwalk.quantity;

/**
 * How the values of a source lie about their mean, as far as a standard uncertainty does not say.
 *
 * @param skewness third standardised moment; positive when the tail reaches to large values
 * @param gross share of values that follow no law and lie far above; from 0 to 1
 */
public record Shape(double skewness, double gross) {

  /** A bell. */
  public static final Shape BELL = new Shape(0, 0);

  public Shape {
    if (!Double.isFinite(skewness) || !(gross >= 0 && gross <= 1)) {
      throw new IllegalArgumentException(
          "a skewness is finite and a share lies from 0 to 1, not " + skewness + ", " + gross);
    }
  }

  /**
   * Lognormal, as is a quantity that only adds: its skewness follows from how large its standard
   * deviation is beside its mean.
   *
   * @param mean not negative; zero stands for a source that is not there
   * @param gross as above
   */
  public static Shape lognormal(double mean, double sd, double gross) {
    if (mean == 0) {
      return BELL;
    }
    double ratio = sd / mean;
    return new Shape(3 * ratio + ratio * ratio * ratio, gross);
  }
}
