package org.jointwalk.landing;

/**
 * One-sided cumulative sum of one probe's logarithm of resistance, started from what all probes
 * have in common. The probe's own level is learned as it goes: each value is compared with what was
 * known before it came, and the width of that knowledge counts, so that a short baseline makes the
 * chart slower and not nervous. One thread.
 */
final class Chart {

  /** Rises smaller than this, in spreads, are no rise. */
  static final double SLACK = 0.75;

  /** One landing counts for no more than this, in spreads. */
  static final double CLIP = 2.5;

  /** After as many passes the level is known and no longer follows. */
  private static final int LEARNING = 100;

  private final double within;
  private double level;
  private double variance;
  private int seen;
  private double sum;

  /**
   * @param level mean logarithm over all probes
   * @param between spread of the probes' own levels
   * @param within spread of one probe from pass to pass
   */
  Chart(double level, double between, double within) {
    this.level = level;
    this.variance = between * between;
    this.within = within;
  }

  /** Takes one value and returns the sum after it. */
  double take(double logarithm) {
    double width = Math.sqrt(within * within + variance);
    double rise = Math.max(-CLIP, Math.min(CLIP, (logarithm - level) / width));
    sum = Math.max(0, sum + rise - SLACK);
    if (seen < LEARNING) {
      double gain = variance / (width * width);
      level += gain * rise * width;
      variance *= 1 - gain;
      seen++;
    }
    return sum;
  }

  double sum() {
    return sum;
  }
}
