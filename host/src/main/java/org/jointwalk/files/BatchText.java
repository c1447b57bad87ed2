package org.jointwalk.files;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Reading;
import org.jointwalk.job.Event;

/**
 * Batches to text. A reading is a list of its volts and amps in turn; one that is over range or
 * refused begins with the word for it. A bare number is the index of the reading that follows it;
 * without one, indices count on. Stateless.
 */
final class BatchText {

  private static final String OVER = "over-range";
  private static final String REFUSED = "refused";

  private BatchText() {}

  static void write(JsonOut out, Event.BatchKept event) {
    out.with("pass", event.pass()).with("scan", event.scan());
    write(out, event.batch());
  }

  /** Adds a batch to the entry that it is part of. */
  static void write(JsonOut out, Batch batch) {
    out.with("closures", batch.closures())
        .with("device_s", batch.deviceSeconds())
        .key("readings")
        .array();
    int expected = -1;
    for (Reading reading : batch.readings()) {
      if (expected < 0 || reading.index() != expected) {
        out.whole(reading.index());
      }
      expected = reading.index() + 1;
      write(out, reading);
    }
    out.end();
  }

  private static void write(JsonOut out, Reading reading) {
    out.array();
    if (reading instanceof Reading.Measured measured) {
      write(out, measured.points());
    } else if (reading instanceof Reading.OverRange over) {
      out.text(OVER);
      write(out, over.points());
    } else if (reading instanceof Reading.Refused refused) {
      out.text(REFUSED).text(refused.reason());
    } else {
      throw new IllegalArgumentException("no text for " + reading);
    }
    out.end();
  }

  private static void write(JsonOut out, List<Reading.Point> points) {
    points.forEach(point -> out.number(point.volts()).number(point.amps()));
  }

  static Event.BatchKept read(Field body) {
    return new Event.BatchKept(
        body.at("pass").count(Integer.MIN_VALUE),
        body.at("scan").count(Integer.MIN_VALUE),
        batch(body));
  }

  /** The batch of an entry. */
  static Batch batch(Field body) {
    List<Reading> readings = new ArrayList<>();
    int index = 0;
    for (Field item : body.at("readings").items()) {
      if (item.isList()) {
        readings.add(reading(index, item));
        index++;
      } else {
        index = item.count(Integer.MIN_VALUE);
      }
    }
    return new Batch(
        readings, body.at("closures").whole(Long.MIN_VALUE), body.at("device_s").anyNumber());
  }

  private static Reading reading(int index, Field field) {
    List<Field> parts = field.items();
    String word = parts.isEmpty() || !parts.get(0).isText() ? "" : parts.get(0).text();
    if (word.equals(REFUSED) && parts.size() == 2) {
      return new Reading.Refused(index, parts.get(1).text());
    }
    if (word.equals(OVER)) {
      return new Reading.OverRange(index, points(parts.subList(1, parts.size())));
    }
    return new Reading.Measured(index, points(parts));
  }

  private static List<Reading.Point> points(List<Field> parts) {
    if (parts.size() % 2 != 0) {
      throw new IllegalArgumentException("a reading has volts without amps");
    }
    List<Reading.Point> points = new ArrayList<>();
    for (int i = 0; i < parts.size(); i += 2) {
      points.add(new Reading.Point(parts.get(i).anyNumber(), parts.get(i + 1).anyNumber()));
    }
    return points;
  }
}
