package org.jointwalk.study;

import org.apache.commons.statistics.distribution.FDistribution;
import org.jointwalk.fixture.Gauge;

/**
 * Analysis of variance of a crossed study. An interaction of positions and operators that is not
 * significant at 0.25 is counted to the repeatability, as is common practice in gauge studies.
 *
 * @param position between positions
 * @param operator between operators; without degrees of freedom for one operator
 * @param interaction of both
 * @param within of cells
 * @param pooled whether the interaction was counted to the repeatability
 * @param parts what follows, in the unit of the readings
 */
record Anova(
    Source position,
    Source operator,
    Source interaction,
    Source within,
    boolean pooled,
    Gauge.Parts parts) {

  private static final double SIGNIFICANT = 0.25;

  /** A source of variation: sum of squares and degrees of freedom. */
  record Source(double squares, int freedom) {

    /** Mean square; zero without degrees of freedom. */
    double mean() {
      return freedom > 0 ? squares / freedom : 0;
    }

    private Source with(Source other) {
      return new Source(squares + other.squares, freedom + other.freedom);
    }
  }

  /** With one operator it is the analysis of one factor. */
  static Anova of(Readings readings) {
    int n = readings.positions();
    int o = readings.operators();
    int r = readings.trials();
    double mean = readings.mean();
    double positions = 0;
    double cells = 0;
    double within = 0;
    for (int i = 0; i < n; i++) {
      positions += o * r * square(readings.positionMean(i) - mean);
      for (int j = 0; j < o; j++) {
        double cell = Readings.mean(readings.cell(i, j));
        cells += r * square(cell - mean);
        within += readings.cell(i, j).stream().mapToDouble(d -> square(d - cell)).sum();
      }
    }
    double operators = 0;
    for (int j = 0; j < o; j++) {
      operators += n * r * square(readings.operatorMean(j) - mean);
    }
    Source position = new Source(positions, n - 1);
    Source operator = new Source(operators, o - 1);
    Source interaction = new Source(Math.max(0, cells - positions - operators), (n - 1) * (o - 1));
    Source error = new Source(within, n * o * (r - 1));
    boolean pooled = !isSignificant(interaction, error);
    return new Anova(
        position,
        operator,
        interaction,
        error,
        pooled,
        pooled
            ? pooled(position, operator, error.with(interaction), n, o, r)
            : apart(position, operator, interaction, error, n, o, r));
  }

  private static double square(double d) {
    return d * d;
  }

  private static boolean isSignificant(Source interaction, Source error) {
    if (interaction.freedom() == 0 || error.mean() == 0) {
      return interaction.squares() > 0 && interaction.freedom() > 0;
    }
    return FDistribution.of(interaction.freedom(), error.freedom())
            .survivalProbability(interaction.mean() / error.mean())
        < SIGNIFICANT;
  }

  private static Gauge.Parts pooled(
      Source position, Source operator, Source error, int n, int o, int r) {
    return new Gauge.Parts(
        Math.sqrt(error.mean()),
        root((operator.mean() - error.mean()) / (n * r)),
        root((position.mean() - error.mean()) / (o * r)));
  }

  private static Gauge.Parts apart(
      Source position, Source operator, Source interaction, Source error, int n, int o, int r) {
    double both = Math.max(0, (interaction.mean() - error.mean()) / r);
    double people = Math.max(0, (operator.mean() - interaction.mean()) / (n * r));
    return new Gauge.Parts(
        Math.sqrt(error.mean()),
        Math.sqrt(people + both),
        root((position.mean() - interaction.mean()) / (o * r)));
  }

  /** A variance that comes out negative is none. */
  private static double root(double variance) {
    return Math.sqrt(Math.max(0, variance));
  }
}
