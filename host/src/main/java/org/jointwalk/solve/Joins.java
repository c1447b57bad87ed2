package org.jointwalk.solve;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Node;

/**
 * What conducts between two nodes without anything joining the two: the loads of a good board, and
 * what stronger joins of other nodes let through. A rail on ground puts all that hangs on it on
 * ground, and a signal bridged to ground reads the load of every rail; none of that is another
 * fault. Not thread-safe.
 */
final class Joins {

  /** Less than this share of what is explained is a join of its own. */
  private static final double SHARE = 1 / 1.5;

  private static final double SURE = 2;

  private static final double LEAST_OHMS = 1e-3;

  private final Expected good;
  private final Map<Set<Node>, Seen> seen = new LinkedHashMap<>();
  private final Map<Set<Node>, Double> stronger = new LinkedHashMap<>();

  private record Seen(Node a, Node b, Estimate ohms) {

    double most() {
      return ohms.value() + SURE * ohms.u();
    }
  }

  Joins(Expected good) {
    this.good = good;
  }

  /** Notes what was read between two different nodes; the least counts. */
  void add(Node a, Node b, Estimate ohms) {
    seen.merge(
        Set.of(a, b), new Seen(a, b, ohms), (p, q) -> p.ohms().value() <= q.ohms().value() ? p : q);
  }

  /**
   * Finds the joins, strongest first, each against what the loads and the stronger ones explain.
   *
   * @return what explains the rest
   */
  Expected settle() {
    Expected now = good;
    List<Seen> strongest = new ArrayList<>(seen.values());
    strongest.sort(Comparator.comparingDouble(this::rank));
    for (Seen s : strongest) {
      double explained = explained(s.a(), s.b(), now);
      double limit = SHARE / Math.max(explained, Expected.SEEN);
      if (s.most() < limit) {
        stronger.put(Set.of(s.a(), s.b()), explained);
        double ohms = Math.max(s.ohms().value(), LEAST_OHMS);
        now = now.with(new Expected.Wire(s.a(), s.b(), 1 / ohms));
      }
    }
    return now;
  }

  /** Of two that read alike, the one with a part of its own is the cause and the other follows. */
  private double rank(Seen s) {
    boolean own = good.between(s.a(), s.b()) > Expected.SEEN;
    return (own ? SHARE : 1) * s.ohms().value();
  }

  /**
   * What is known to conduct between two groups, at most, in siemens; zero when no join was found,
   * since nets that a good board joins are in no group.
   *
   * @param all as {@link #settle} returned it
   */
  double known(List<Node> high, List<Node> low, Expected all) {
    double sum = 0;
    if (!stronger.isEmpty()) {
      for (Node a : high) {
        for (Node b : low) {
          sum += explained(a, b, all);
        }
      }
    }
    return sum;
  }

  /**
   * Conductance in siemens that is there without a join of these two.
   *
   * @param all as {@link #settle} returned it
   */
  double withoutJoin(Node a, Node b, Expected all) {
    return stronger.getOrDefault(Set.of(a, b), explained(a, b, all));
  }

  /** What a good board conducts, and by how much found joins add to it. */
  private double explained(Node a, Node b, Expected now) {
    return good.between(a, b) + Math.max(0, now.byLoads(a, b) - good.byLoads(a, b));
  }
}
