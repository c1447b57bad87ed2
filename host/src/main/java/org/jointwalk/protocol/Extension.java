package org.jointwalk.protocol;

import java.util.Comparator;
import java.util.List;
import org.jointwalk.fixture.Extend;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Ohms;

/**
 * How a fixture decides whether a step goes on for another point, and what a brief step says (10.2
 * and 13.4): the sequential test of a mean with fixed boundaries, in whole numbers. Stateless.
 */
public final class Extension {

  /** What is too large to be told, and what was over range. */
  public static final long MOST_ANSWER = Ranges.U32;

  private static final long MICROOHM = 100_000_000;
  private static final long TENTH_OHM = 1_000;

  private static final double MICRO = 1e6;

  private Extension() {}

  /**
   * The number that decides.
   *
   * @param kind of the step
   * @param points one; all of them for a junction step
   * @param over whether the step was over range
   * @return in the unit of the kind, at most {@link #MOST_ANSWER}
   */
  public static long answer(Kind kind, List<Raw> points, boolean over) {
    if (over) {
      return MOST_ANSWER;
    }
    Raw point =
        points.stream()
            .max(Comparator.comparingInt(raw -> Math.abs(raw.amp())))
            .orElseThrow(() -> new IllegalArgumentException("a step within range has a point"));
    return switch (kind) {
      case LOW_LEVEL, NORMAL_LEVEL -> ratio(point, MICROOHM);
      case ISOLATION -> ratio(point, TENTH_OHM);
      case ALL_OPEN, CHARGE -> Math.abs(point.amp());
      case RESIDUAL, RESIDUAL_LOADED, DISCHARGE, JUNCTION -> Math.abs(point.volt());
    };
  }

  private static long ratio(Raw point, long scale) {
    long amp = Math.abs(point.amp());
    return amp == 0
        ? MOST_ANSWER
        : Math.min(MOST_ANSWER, Math.abs((long) point.volt()) * scale / amp);
  }

  /**
   * Whether a step is finished (M47).
   *
   * @param setting of the step
   * @param answers of the points taken so far, at least one
   * @param over whether the last one was over range
   */
  public static boolean ends(Streamed.Setting setting, List<Long> answers, boolean over) {
    int n = answers.size();
    return over
        || n >= setting.most()
        || (n >= setting.samples() && brief(setting, answers, false) != Notice.Brief.UNDECIDED);
  }

  /**
   * Whether a step of a scan is finished, by the same whole numbers as on the line.
   *
   * @param step of the scan
   * @param points taken so far, at least one
   * @param over whether the last one was over range
   */
  public static boolean ends(Step step, List<Reading.Point> points, boolean over) {
    int n = points.size();
    if (n < step.samples() || step.extend().isEmpty()) {
      return n >= step.samples();
    }
    Extend extend = step.extend().get();
    long beyond = -n * micro(extend.limit());
    for (Reading.Point point : points) {
      Raw raw = new Raw(Units.volt(point.volts()), Units.amp(point.amps()));
      beyond += answer(step.kind(), List.of(raw), false);
    }
    return over
        || n >= extend.most()
        || -beyond >= micro(extend.below())
        || beyond >= micro(extend.above());
  }

  /** A resistance as settings carry it. */
  static long micro(Ohms ohms) {
    return Math.min(MOST_ANSWER, Math.round(ohms.value() * MICRO));
  }

  /**
   * What a brief step says (M76).
   *
   * @param setting of the step
   * @param answers of its points, at least one
   * @param over whether it was over range
   */
  public static Notice.Brief brief(Streamed.Setting setting, List<Long> answers, boolean over) {
    long sum = answers.stream().mapToLong(Long::longValue).sum();
    long beyond = sum - answers.size() * setting.limit();
    if (!over && -beyond >= setting.below()) {
      return Notice.Brief.BELOW;
    }
    return over || beyond >= setting.above() ? Notice.Brief.ABOVE : Notice.Brief.UNDECIDED;
  }
}
