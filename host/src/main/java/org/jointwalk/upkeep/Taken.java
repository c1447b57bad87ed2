package org.jointwalk.upkeep;

import java.util.Optional;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;

/** A step with what was read. */
record Taken(Step step, Reading reading) {

  /** The first point, empty when nothing was measured. */
  Optional<Reading.Point> point() {
    return reading instanceof Reading.Measured measured
        ? Optional.of(measured.points().get(0))
        : Optional.empty();
  }

  /** The size of the resistance at the first point, infinite without current. */
  Optional<Double> ohms() {
    return point().map(point -> Math.abs(point.volts() / point.amps()));
  }
}
