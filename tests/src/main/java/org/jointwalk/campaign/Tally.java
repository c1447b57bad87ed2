package org.jointwalk.campaign;

import java.util.LinkedHashMap;
import java.util.Map;

/** Counts hits among cases, and sums, by name. Not thread-safe. */
final class Tally {

  /** What was counted under one name. */
  private static final class Count {
    private long hits;
    private long of;
    private double sum;
  }

  private final Map<String, Count> counts = new LinkedHashMap<>();

  /** One more case, which is a hit or not. */
  void add(String name, boolean hit) {
    add(name, hit ? 1 : 0, 1);
  }

  /** So many cases with so many hits. */
  void add(String name, long hits, long of) {
    Count count = count(name);
    count.hits += hits;
    count.of += of;
  }

  /** One more case with its value. */
  void sum(String name, double value) {
    Count count = count(name);
    count.sum += value;
    count.of++;
  }

  private Count count(String name) {
    return counts.computeIfAbsent(name, k -> new Count());
  }

  /** Adds all that another counted. */
  void addAll(Tally other) {
    other.counts.forEach(
        (name, theirs) -> {
          Count mine = count(name);
          mine.hits += theirs.hits;
          mine.of += theirs.of;
          mine.sum += theirs.sum;
        });
  }

  long hits(String name) {
    return counts.getOrDefault(name, new Count()).hits;
  }

  long of(String name) {
    return counts.getOrDefault(name, new Count()).of;
  }

  double total(String name) {
    return counts.getOrDefault(name, new Count()).sum;
  }
}
