package org.jointwalk.solve;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Drift;
import org.jointwalk.job.Measurement;
import org.jointwalk.quantity.Ohms;

/**
 * Whether a step that was repeated through a seating read the same each time, as far as noise and
 * switches that close anew let it. Immutable.
 */
final class Steadiness {

  /** Readings of one step from which drift can be told. */
  private static final int ENOUGH = 3;

  /** One false alarm in so many seatings. */
  private static final double ODD = 1e-4;

  private final Accuracy accuracy;

  Steadiness(Accuracy accuracy) {
    this.accuracy = accuracy;
  }

  /** The step of a seating that drifted most, empty when none did. */
  Optional<Drift> drift(int seating, List<Measurement> list) {
    Map<Step, List<Reading.Measured>> repeated = new LinkedHashMap<>();
    for (Measurement m : list) {
      if (m.step().kind().isResistance()
          && m.step().isPair()
          && m.reading() instanceof Reading.Measured measured
          && measured.points().stream().noneMatch(p -> p.amps() == 0)) {
        repeated.computeIfAbsent(m.step(), k -> new ArrayList<>()).add(measured);
      }
    }
    Optional<Drift> worst = Optional.empty();
    for (Map.Entry<Step, List<Reading.Measured>> entry : repeated.entrySet()) {
      Optional<Drift> drift = drift(seating, entry.getKey(), entry.getValue());
      if (drift.isPresent() && worst.filter(w -> w.u() >= drift.get().u()).isEmpty()) {
        worst = drift;
      }
    }
    return worst;
  }

  private Optional<Drift> drift(int seating, Step step, List<Reading.Measured> readings) {
    int n = readings.size();
    if (n < ENOUGH) {
      return Optional.empty();
    }
    double[] ohms = new double[n];
    double weights = 0;
    double mean = 0;
    double[] u = new double[n];
    for (int i = 0; i < n; i++) {
      ohms[i] = accuracy.sensed(step, readings.get(i)).ohms();
      u[i] = accuracy.repeatability(step, readings.get(i));
      weights += 1 / (u[i] * u[i]);
      mean += ohms[i] / (u[i] * u[i]);
    }
    mean /= weights;
    double chi = 0;
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < n; i++) {
      chi += (ohms[i] - mean) * (ohms[i] - mean) / (u[i] * u[i]);
      low = Math.min(low, ohms[i]);
      high = Math.max(high, ohms[i]);
    }
    if (chi <= ChiSquaredDistribution.of(n - 1).inverseSurvivalProbability(ODD)) {
      return Optional.empty();
    }
    // A value that may lie anywhere in a span: a rectangle (JCGM 100:2008, 4.3.7).
    return Optional.of(
        new Drift(seating, step.a(), step.b(), new Ohms(high - low), (high - low) / Math.sqrt(12)));
  }
}
