package org.jointwalk.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A fixture as its log tells it.
 *
 * @param identity of the fixture
 * @param lastSeq number of the last event, 0 when nothing was kept of it
 * @param timeline every event, with its place
 */
public record FixtureRecord(String identity, long lastSeq, List<Logged> timeline) {

  private static final String PREFIX = "fixture ";

  public FixtureRecord {
    timeline = List.copyOf(timeline);
  }

  /** Name of the stream of the fixture with this identity. */
  public static String stream(String identity) {
    return PREFIX + identity;
  }

  /** Whether a stream of this name is a fixture's; no id of a job looks like one. */
  public static boolean isStream(String stream) {
    return stream.startsWith(PREFIX);
  }

  /**
   * Makes the record from its events; cost is linear in them.
   *
   * @param identity of the fixture
   * @param events all of its stream, in order; none when it was never zeroed, checked or studied
   * @throws IllegalArgumentException when one is not of a fixture
   */
  public static FixtureRecord fold(String identity, List<Logged> events) {
    for (Logged logged : events) {
      if (!(logged.event() instanceof FixtureEvent)) {
        throw new IllegalArgumentException(
            "entry " + logged.seq() + " of " + stream(identity) + " is of no fixture");
      }
    }
    return new FixtureRecord(
        identity, events.isEmpty() ? 0 : events.get(events.size() - 1).seq(), events);
  }

  /** What a log says of a fixture. */
  public static FixtureRecord read(JobLog log, String identity) {
    return fold(identity, log.read(stream(identity)));
  }

  /** Number for the next piece of work. */
  public int nextRun() {
    return of(FixtureEvent.Begun.class).size() + 1;
  }

  /** How many seatings it has had in its own runs. */
  public int seatings() {
    return of(FixtureEvent.Clamped.class).size();
  }

  /** The newest zero, whether or not it still holds. */
  public Optional<FixtureEvent.Zeroed> lastZero() {
    return last(FixtureEvent.Zeroed.class);
  }

  /** The newest self-check. */
  public Optional<FixtureEvent.Checked> lastCheck() {
    return last(FixtureEvent.Checked.class);
  }

  private <E extends FixtureEvent> Optional<E> last(Class<E> kind) {
    List<E> all = of(kind);
    return all.isEmpty() ? Optional.empty() : Optional.of(all.get(all.size() - 1));
  }

  /** Every event of a kind, in order. */
  public <E extends FixtureEvent> List<E> of(Class<E> kind) {
    List<E> all = new ArrayList<>();
    for (Logged logged : timeline) {
      if (kind.isInstance(logged.event())) {
        all.add(kind.cast(logged.event()));
      }
    }
    return all;
  }
}
