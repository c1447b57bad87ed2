package org.jointwalk.study;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jointwalk.fixture.Gauge;

/**
 * The average-and-range method of gauge studies. Its factors are those of the range of two to ten
 * values of a normal distribution, as tables of quality control print them (values from memory,
 * checked against the published example).
 *
 * @param parts in the unit of the readings
 * @param mostRange range of a cell beyond which its readings do not belong together
 * @param strange cells beyond it
 */
record Ranges(Gauge.Parts parts, double mostRange, List<Cell> strange) {

  /** Most values that the tables know. */
  static final int MOST = 10;

  /** One over the mean range of so many values, of many cells; from two values on. */
  private static final double[] OF_CELLS = {
    .8862, .5908, .4857, .4299, .3946, .3698, .3512, .3367, .3249
  };

  /** The same for a single range. */
  private static final double[] OF_ONE = {
    .7071, .5231, .4467, .4030, .3742, .3534, .3375, .3249, .3146
  };

  /** Upper control limit of a range over the mean range. */
  private static final double[] LIMIT = {
    3.267, 2.574, 2.282, 2.114, 2.004, 1.924, 1.864, 1.816, 1.777
  };

  /** Readings of one position by one operator, by number from 0. */
  record Cell(int position, int operator) {}

  Ranges {
    strange = List.copyOf(strange);
  }

  /**
   * @throws IllegalArgumentException with more than ten positions, operators or trials
   */
  static Ranges of(Readings readings) {
    int n = readings.positions();
    int o = readings.operators();
    int r = readings.trials();
    if (n > MOST || o > MOST || r > MOST) {
      throw new IllegalArgumentException("the tables of ranges end at " + MOST);
    }
    double sum = 0;
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < o; j++) {
        sum += range(readings.cell(i, j));
      }
    }
    double mean = sum / (n * o);
    double repeatability = mean * OF_CELLS[r - 2];
    double people = 0;
    if (o > 1) {
      List<Double> means = new ArrayList<>();
      for (int j = 0; j < o; j++) {
        means.add(readings.operatorMean(j));
      }
      double spread = range(means) * OF_ONE[o - 2];
      people = Math.sqrt(Math.max(0, spread * spread - repeatability * repeatability / (n * r)));
    }
    List<Double> means = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      means.add(readings.positionMean(i));
    }
    double most = mean * LIMIT[r - 2];
    List<Cell> strange = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < o; j++) {
        if (range(readings.cell(i, j)) > most) {
          strange.add(new Cell(i, j));
        }
      }
    }
    return new Ranges(
        new Gauge.Parts(repeatability, people, range(means) * OF_ONE[n - 2]), most, strange);
  }

  private static double range(List<Double> values) {
    return Collections.max(values) - Collections.min(values);
  }
}
