package org.jointwalk.landing;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.statistics.distribution.BetaDistribution;
import org.jointwalk.job.Landed;
import org.jointwalk.job.ProbeState;
import org.jointwalk.job.ProbeState.Advice;
import org.jointwalk.stack.Contact;

/** The probes of a fixture over its passes. For one thread and one look. */
final class Histories {

  /**
   * A probe whose sum reaches this is to be cleaned: by {@code tests/campaign contact}, fewer than
   * one sound probe of 420 does in 100 passes, under a law with a heavy upper tail.
   */
  static final double CLEAN = 7.5;

  static final double WATCH = CLEAN / 2;

  /** Passes from which the common level and spreads are taken. */
  private static final int BASELINE = 100;

  /** Spreads of a logarithm, for as long as no probe was read twice (from memory, no source). */
  private static final double BETWEEN = 0.3;

  private static final double WITHIN = 0.35;

  /** A normal's standard deviation over its median absolute deviation. */
  private static final double OF_NORMAL = 1.4826;

  /** A probe misses one landing in two hundred; as sure of it as of twenty landings (assumed). */
  private static final double MISSES = 0.1;

  private static final double LANDS = 19.9;

  /** Who misses more than one landing in twenty costs seatings. */
  private static final double TOO_MANY = 0.05;

  /** In fewer passes than this a few set-ups make a probe seem to rise. */
  private static final int KNOWN = 10;

  private static final double LIKELY = 0.5;
  private static final double SURE = 0.95;

  private final Map<Contact, Book> books = new TreeMap<>(Comparator.comparing(Contact::toString));

  /** What was kept of one probe. */
  private static final class Book {

    private final List<Double> logarithms = new ArrayList<>();
    private int pressings;
    private int landings;
    private int missed;
  }

  Histories(List<Landed> passes) {
    for (Landed pass : passes) {
      for (Contact contact : pass.used()) {
        Book book = books.computeIfAbsent(contact, k -> new Book());
        book.pressings += pass.pressings();
        book.landings += pass.landings().getOrDefault(contact, 0);
        book.missed += pass.missed().getOrDefault(contact, 0);
        Double ohms = pass.ohms().get(contact);
        if (ohms != null) {
          book.logarithms.add(Math.log(ohms));
        }
      }
    }
  }

  List<ProbeState> states() {
    List<Double> levels = new ArrayList<>();
    List<Double> steps = new ArrayList<>();
    for (Book book : books.values()) {
      List<Double> baseline = baseline(book);
      if (!baseline.isEmpty()) {
        levels.add(median(baseline));
      }
      // Steps from pass to pass hold no level, and a slow rise only in its smallest part.
      for (int i = 1; i < baseline.size(); i++) {
        steps.add(Math.abs(baseline.get(i) - baseline.get(i - 1)));
      }
    }
    double within = steps.isEmpty() ? WITHIN : OF_NORMAL * median(steps) / Math.sqrt(2);
    double level = levels.isEmpty() ? 0 : median(levels);
    double spread =
        OF_NORMAL
            * (levels.isEmpty()
                ? 0
                : median(levels.stream().map(x -> Math.abs(x - level)).toList()));
    double between =
        Math.max(
            BETWEEN / 3, Math.sqrt(Math.max(0, spread * spread - within * within / typical())));
    Map<Contact, ProbeState> states = new LinkedHashMap<>();
    books.forEach(
        (contact, book) -> {
          Chart chart = new Chart(level, between, Math.max(within, WITHIN / 10));
          double worst = 0;
          for (double logarithm : book.logarithms) {
            worst = Math.max(worst, chart.take(logarithm));
          }
          states.put(contact, state(contact, book, chart.sum(), worst));
        });
    return List.copyOf(states.values());
  }

  /** How many passes a level rests on, in the middle. */
  private double typical() {
    List<Double> sizes =
        books.values().stream().map(b -> (double) baseline(b).size()).filter(n -> n > 0).toList();
    return sizes.isEmpty() ? 1 : median(sizes);
  }

  private static List<Double> baseline(Book book) {
    return book.logarithms.subList(0, Math.min(BASELINE, book.logarithms.size()));
  }

  private static ProbeState state(Contact contact, Book book, double now, double worst) {
    double misses = MISSES + book.missed;
    double lands = LANDS + book.landings;
    double tooMany = 1 - BetaDistribution.of(misses, lands).cumulativeProbability(TOO_MANY);
    Advice advice = Advice.FINE;
    boolean known = book.logarithms.size() >= KNOWN;
    if ((known && worst >= CLEAN) || tooMany > SURE) {
      // What reached the mark stays named until somebody has cleaned the probes.
      advice = Advice.CLEAN;
    } else if ((known && now >= WATCH) || (book.missed > 1 && tooMany > LIKELY)) {
      advice = Advice.WATCH;
    }
    return new ProbeState(
        contact,
        book.logarithms.size(),
        book.pressings,
        book.missed,
        now,
        misses / (misses + lands),
        advice);
  }

  private static double median(List<Double> values) {
    List<Double> sorted = new ArrayList<>(values);
    Collections.sort(sorted);
    int n = sorted.size();
    return n % 2 == 1 ? sorted.get(n / 2) : (sorted.get(n / 2 - 1) + sorted.get(n / 2)) / 2;
  }
}
