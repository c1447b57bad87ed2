package org.jointwalk.job;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What the log says of one watch. A watch that was killed has no end, but all that it saw.
 *
 * @param begun its first event
 * @param looking every time that looking began
 * @param edges in order of time
 * @param notes in order of time
 * @param ended its last event, empty when it never came to it
 * @param seconds how far it came
 * @param looks how many it took
 */
public record WatchRecord(
    WatchEvent.Begun begun,
    List<WatchEvent.Looking> looking,
    List<WatchEvent.Edge> edges,
    List<WatchEvent.Noted> notes,
    Optional<WatchEvent.Ended> ended,
    double seconds,
    long looks) {

  public WatchRecord {
    looking = List.copyOf(looking);
    edges = List.copyOf(edges);
    notes = List.copyOf(notes);
  }

  /** All watches of a job, in order; cost is linear in its events. */
  public static List<WatchRecord> of(Job job) {
    Map<Integer, Open> open = new LinkedHashMap<>();
    for (Logged logged : job.timeline()) {
      if (logged.event() instanceof WatchEvent.Begun begun) {
        open.put(begun.watch(), new Open(begun));
      } else if (logged.event() instanceof WatchEvent event) {
        Open one = open.get(event.watch());
        if (one == null) {
          throw new IllegalArgumentException(
              "an event names watch " + event.watch() + ", which was not begun");
        }
        one.take(event);
      }
    }
    return open.values().stream().map(Open::record).toList();
  }

  /** What was seen: as it was shown at the end, or as far as it came. */
  public Watched watched() {
    return ended.map(WatchEvent.Ended::watched).orElseGet(this::soFar);
  }

  private Watched soFar() {
    Map<String, Tally> tallies = new LinkedHashMap<>();
    looking.forEach(l -> l.looks().forEach(k -> tallies.putIfAbsent(k.position(), new Tally())));
    for (WatchEvent.Edge edge : edges) {
      tallies.computeIfAbsent(edge.position(), k -> new Tally()).take(edge);
    }
    List<Watched.Joint> joints = new ArrayList<>();
    tallies.forEach((position, tally) -> joints.add(tally.joint(position, seconds)));
    return new Watched(seconds, looks, 0, joints);
  }

  /** How often each joint dropped out from one note to the next, by position. */
  public Map<String, Integer> after(WatchEvent.Noted note) {
    double until =
        notes.stream()
            .filter(n -> n.atSeconds() > note.atSeconds())
            .mapToDouble(WatchEvent.Noted::atSeconds)
            .findFirst()
            .orElse(Double.POSITIVE_INFINITY);
    Map<String, Integer> counts = new LinkedHashMap<>();
    for (WatchEvent.Edge edge : edges) {
      if (edge.out() && edge.atSeconds() >= note.atSeconds() && edge.atSeconds() < until) {
        counts.merge(edge.position(), 1, Integer::sum);
      }
    }
    return Collections.unmodifiableMap(counts);
  }

  private static final class Tally {

    private int dropouts;
    private Optional<Double> first = Optional.empty();
    private double longest;
    private Optional<Double> since = Optional.empty();

    private void take(WatchEvent.Edge edge) {
      if (edge.out()) {
        dropouts++;
        first = first.or(() -> Optional.of(edge.atSeconds()));
        since = Optional.of(edge.atSeconds());
      } else {
        longest = Math.max(longest, edge.atSeconds() - since.orElse(edge.atSeconds()));
        since = Optional.empty();
      }
    }

    private Watched.Joint joint(String position, double end) {
      double held = since.map(s -> end - s).orElse(0.0);
      return new Watched.Joint(
          position, dropouts, first, Math.max(longest, held), since.isPresent());
    }
  }

  private static final class Open {

    private final WatchEvent.Begun begun;
    private final List<WatchEvent.Looking> looking = new ArrayList<>();
    private final List<WatchEvent.Edge> edges = new ArrayList<>();
    private final List<WatchEvent.Noted> notes = new ArrayList<>();
    private Optional<WatchEvent.Ended> ended = Optional.empty();
    private double seconds;
    private long looks;

    private Open(WatchEvent.Begun begun) {
      this.begun = begun;
    }

    private void take(WatchEvent event) {
      if (event instanceof WatchEvent.Looking looks) {
        looking.add(looks);
      } else if (event instanceof WatchEvent.Changed changed) {
        edges.addAll(changed.edges());
        seconds = changed.atSeconds();
        looks = changed.looks();
      } else if (event instanceof WatchEvent.Noted noted) {
        notes.add(noted);
      } else if (event instanceof WatchEvent.Ended end) {
        ended = Optional.of(end);
        seconds = end.watched().seconds();
        looks = end.watched().looks();
      }
    }

    private WatchRecord record() {
      return new WatchRecord(begun, looking, edges, notes, ended, seconds, looks);
    }
  }
}
