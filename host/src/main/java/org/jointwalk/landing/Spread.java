package org.jointwalk.landing;

/**
 * Density of a lognormal resistance read with normal noise, tabulated once. Immutable; a look-up
 * costs the same for every law.
 */
final class Spread {

  /** Steps and reach of the standard normal that the resistance is made of. */
  private static final double STEP = 0.05;

  private static final double REACH = 4.5;

  private static final int CELLS = 1000;

  private final double from;
  private final double cell;
  private final double[] table;

  /**
   * @param median of the resistance in ohm
   * @param sigma of its logarithm
   * @param u standard deviation of the noise in ohm
   * @param to largest value that is looked up
   */
  Spread(double median, double sigma, double u, double to) {
    this.from = -8 * u;
    this.cell = (Math.max(to, median * Math.exp(2 * sigma)) - from) / CELLS;
    this.table = new double[CELLS + 1];
    // Each piece of the law is a normal as wide as its distance from the next, so that noise may
    // be far smaller or far larger than the law without a gap or a special case.
    for (double z = -REACH; z <= REACH; z += STEP) {
      double ohms = median * Math.exp(sigma * z);
      double width = Math.max(Math.hypot(u, ohms * sigma * STEP), cell);
      double weight = STEP * Math.exp(-z * z / 2) / (2 * Math.PI * width);
      int first = Math.max(0, (int) ((ohms - 6 * width - from) / cell));
      int last = Math.min(CELLS, (int) ((ohms + 6 * width - from) / cell) + 1);
      for (int i = first; i <= last; i++) {
        double t = (from + i * cell - ohms) / width;
        table[i] += weight * Math.exp(-t * t / 2);
      }
    }
  }

  /** Density per ohm; zero outside of the table. */
  double at(double ohms) {
    double place = (ohms - from) / cell;
    if (!(place >= 0 && place < CELLS)) {
      return 0;
    }
    int i = (int) place;
    double part = place - i;
    return table[i] * (1 - part) + table[i + 1] * part;
  }
}
