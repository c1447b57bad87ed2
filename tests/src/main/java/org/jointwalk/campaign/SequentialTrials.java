package org.jointwalk.campaign;

import java.util.ArrayList;
import java.util.List;
import java.util.random.RandomGenerator;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.jointwalk.fixture.Extend;
import org.jointwalk.fixture.Sequential;
import org.jointwalk.trial.Trials;

/** Runs the sequential test as a fixture would, on normal readings. Stateless. */
final class SequentialTrials {

  private static final double SIGMA = 0.01;
  private static final double LIMIT = 1;
  private static final double RISK = 1e-4;

  private SequentialTrials() {}

  /** What came of many tests. */
  private record Outcome(double samples, long wrong, long undecided) {}

  static List<Figure> figures(long seed, int runs) {
    List<Figure> figures = new ArrayList<>();
    for (double distance : new double[] {0.5, 1, 2}) {
      Sequential test = new Sequential(SIGMA, distance * SIGMA / 2, RISK);
      Outcome edge = run(test, seed, runs);
      double z = NormalDistribution.of(0, 1).inverseSurvivalProbability(RISK);
      double fixed = Math.pow(2 * z / distance, 2);
      double ratio = edge.samples() / runs / corrected(distance);
      String at = " at D = " + Figure.mean("", distance, 1, 1).value();
      figures.add(
          Figure.mean("mean samples over the corrected formula" + at, ratio * runs, runs, 3)
              .with(Figure.Relation.AT_MOST, "1.10"));
      Figure fewer =
          Figure.mean(
              "fixed length over mean samples" + at,
              fixed / (edge.samples() / runs) * runs,
              runs,
              2);
      figures.add(distance <= 1 ? fewer.with(Figure.Relation.AT_LEAST, "2.5") : fewer);
      // Ten times the stated risk is what would be seen to be wrong in so few runs.
      figures.add(
          Figure.share("wrong ends" + at, edge.wrong(), runs)
              .with(Figure.Relation.AT_MOST, "0.001"));
      figures.add(Figure.share("given up" + at, edge.undecided(), runs));
    }
    return figures;
  }

  /**
   * Mean number at the edge of a zone with Siegmund's correction: Wald's boundary a = ln((1 - r) /
   * r) and 0.583 of a step of the sum for the overshoot, 2 (a + 0.583 D) / D^2 (1 - 2 r).
   */
  private static double corrected(double d) {
    return 2 * (Math.log((1 - RISK) / RISK) + 0.583 * d) / (d * d) * (1 - 2 * RISK);
  }

  private static Outcome run(Sequential test, long seed, int runs) {
    RandomGenerator random = Trials.random(seed);
    Extend extend = test.extend(LIMIT, Integer.MAX_VALUE);
    double samples = 0;
    long wrong = 0;
    long undecided = 0;
    for (int i = 0; i < runs; i++) {
      double beyond = 0;
      int n = 0;
      do {
        n++;
        beyond += LIMIT - test.away() + SIGMA * random.nextGaussian() - extend.limit().value();
      } while (n < extend.most()
          && -beyond < extend.below().value()
          && beyond < extend.above().value());
      samples += n;
      if (beyond >= extend.above().value()) {
        wrong++;
      } else if (-beyond < extend.below().value()) {
        undecided++;
      }
    }
    return new Outcome(samples, wrong, undecided);
  }
}
