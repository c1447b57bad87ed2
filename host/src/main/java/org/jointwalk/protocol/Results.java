package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Reading;

/** Readings as a fixture says them, and back. Stateless. */
public final class Results {

  private static final double MICRO = 1e6;

  private Results() {}

  /**
   * The batch that a frame of results is.
   *
   * @throws BreachException when an index is beyond what a scan can have
   */
  public static Batch batch(Notice.Results results) throws BreachException {
    Notice.Span span = results.span();
    if (span.first() + results.results().size() > Integer.MAX_VALUE) {
      throw new BreachException("M73", "results from index " + span.first() + " on");
    }
    List<Reading> readings = new ArrayList<>(results.results().size());
    for (Taken taken : results.results()) {
      readings.add(reading((int) span.first() + readings.size(), taken));
    }
    return new Batch(readings, span.closures(), span.took() / MICRO);
  }

  /**
   * The reading of one step.
   *
   * @param index of the step in its scan
   */
  public static Reading reading(int index, Taken taken) {
    if (taken instanceof Taken.Measured measured) {
      return new Reading.Measured(index, points(measured.points()));
    }
    if (taken instanceof Taken.OverRange over) {
      return new Reading.OverRange(index, points(over.points()));
    }
    Taken.Refused refused = (Taken.Refused) taken;
    return new Reading.Refused(
        index,
        StepRefusal.of(refused.reason())
            .map(StepRefusal::text)
            .orElse("the fixture gives reason " + refused.reason() + ", which is not known here"));
  }

  private static List<Reading.Point> points(List<Raw> points) {
    return points.stream()
        .map(raw -> new Reading.Point(Units.volts(raw.volt()), Units.amps(raw.amp())))
        .toList();
  }

  /**
   * What a fixture says of a reading.
   *
   * @param refusal what it says of one that was refused, since a reading has words and no number
   * @throws IllegalArgumentException when it has more points than a frame takes, or no numbers
   */
  public static Taken taken(Reading reading, StepRefusal refusal) {
    if (reading instanceof Reading.Measured measured) {
      return new Taken.Measured(raw(measured.points()));
    }
    if (reading instanceof Reading.OverRange over) {
      return new Taken.OverRange(raw(over.points()));
    }
    return new Taken.Refused(refusal.code());
  }

  private static List<Raw> raw(List<Reading.Point> points) {
    return points.stream()
        .map(point -> new Raw(Units.volt(point.volts()), Units.amp(point.amps())))
        .toList();
  }
}
