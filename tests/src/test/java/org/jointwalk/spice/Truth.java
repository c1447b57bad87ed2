package org.jointwalk.spice;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.SetUp;

/** What a pass over a handset should say, by what was done to it and by what can be seen. */
final class Truth {

  private static final Set<Grade> CONNECTED = Set.of(Grade.GOOD, Grade.UNRESOLVED);

  /** What the copper of a sound path and its partner's may add to a value, in ohm. */
  private static final double COPPER_OHMS = 0.4;

  private final Sight sight;
  private final SetUp setUp;
  private final Map<String, Set<Grade>> grades = new LinkedHashMap<>();
  private final Map<String, Double> moreOhms = new LinkedHashMap<>();
  private final Set<Component> faulty = new LinkedHashSet<>();
  private final Map<Set<Set<String>>, Double> bridges = new LinkedHashMap<>();
  private final Set<Set<NetId>> shorted = new LinkedHashSet<>();

  Truth(Handset handset, SetUp setUp) {
    this.setUp = setUp;
    sight = new Sight(handset.map(), setUp);
    for (String id : handset.map().positions().keySet()) {
      grades.put(
          id,
          switch (sight.of(id)) {
            case WHOLE -> CONNECTED;
            case MASKED -> Set.of(Grade.MASKED);
            case NOTHING -> Set.of(Grade.NOT_TESTED);
          });
    }
    handset.defects().conditions().forEach(this::put);
  }

  private void put(Component part, Condition wrong) {
    if (part instanceof Component.Bridge bridge && wrong instanceof Condition.Bridged by) {
      if (setUp.interposer() || setUp.boards().contains(bridge.side())) {
        join(sight.metal(bridge.a()), sight.metal(bridge.b()), by.ohms().value());
      }
    } else if (part instanceof Component.NetOf of) {
      if (setUp.boards().contains(of.net().side())) {
        shorted.add(Set.of(of.net()));
      }
    } else if (sight.shows(part)) {
      faulty.add(part);
      String id = Sight.position(part);
      if (wrong instanceof Condition.High high) {
        moreOhms.merge(id, high.ohms().value(), Double::sum);
        grades.merge(id, Set.of(Grade.HIGH), (was, now) -> was.contains(Grade.OPEN) ? was : now);
      } else {
        grades.put(id, Set.of(Grade.OPEN));
      }
    }
  }

  /** Rails and ground that are joined are the board's matter, for a failed part can do it too. */
  private void join(Set<String> a, Set<String> b, double ohms) {
    Set<NetId> nets = new LinkedHashSet<>(sight.power(a));
    if (a.equals(b)) {
      return;
    }
    if (nets.isEmpty() || sight.power(b).isEmpty()) {
      bridges.put(Set.of(a, b), ohms);
    } else {
      nets.addAll(sight.power(b));
      shorted.add(nets);
    }
  }

  /** Every difference between what was found and what should have been, in words. */
  List<String> differences(Findings findings) {
    Set<String> bridged = new LinkedHashSet<>();
    findings.bridges().forEach(b -> bridged.addAll(List.of(b.a(), b.b())));
    List<String> differences = new ArrayList<>();
    for (Finding f : findings.positions()) {
      boolean right =
          f.grade() == Grade.BRIDGED ? bridged.contains(f.position()) : isRight(f, bridged);
      if (!right) {
        differences.add(
            String.format(
                Locale.ROOT,
                "%s is %s, graded %s among %s: %s",
                f.position(),
                grades.get(f.position()),
                f.grade(),
                f.among(),
                f.reason()));
      }
    }
    compareBridges(findings, differences);
    compareBoards(findings, differences);
    return differences;
  }

  private boolean isRight(Finding f, Set<String> bridged) {
    Set<Grade> right = grades.getOrDefault(f.position(), Set.of());
    boolean names = f.among().stream().anyMatch(faulty::contains);
    return switch (f.grade()) {
      case OPEN -> right.contains(Grade.OPEN) && names && f.confirmed();
      // A net of two pads gives a sum: both are named, the faulty one among them.
      case HIGH -> names && (!right.contains(Grade.HIGH) || fits(f));
      case UNRESOLVED -> right.contains(Grade.UNRESOLVED) || tooSmall(f);
      default -> right.contains(f.grade()) && !bridged.contains(f.position());
    };
  }

  /** Whether a high value is what was put there. */
  private boolean fits(Finding f) {
    double put = moreOhms.getOrDefault(f.position(), 0.0);
    return f.ohms().filter(ohms -> isNear(ohms, put)).isPresent();
  }

  private static boolean isNear(Estimate ohms, double put) {
    double more = ohms.value() - put;
    return more > -4 * ohms.u() && more < COPPER_OHMS + 4 * ohms.u();
  }

  /** A resistance that the pass itself says it could not have seen. */
  private boolean tooSmall(Finding f) {
    Optional<Double> put = Optional.ofNullable(moreOhms.get(f.position()));
    return put.isPresent()
        && f.detectable().map(d -> d.value() > put.get()).orElse(f.ohms().isEmpty());
  }

  private void compareBridges(Findings findings, List<String> differences) {
    Map<Set<Set<String>>, Double> missing = new LinkedHashMap<>(bridges);
    for (BridgeFinding bridge : findings.bridges()) {
      Set<Set<String>> two = Set.of(sight.metal(bridge.a()), sight.metal(bridge.b()));
      Optional<Double> ohms = Optional.ofNullable(missing.remove(two));
      if (ohms.filter(put -> isNear(bridge.ohms(), put)).isEmpty()) {
        differences.add("no such bridge: " + bridge);
      }
    }
    missing.forEach((two, ohms) -> differences.add("a bridge is not found: " + ohms + " " + two));
  }

  private void compareBoards(Findings findings, List<String> differences) {
    Set<Set<NetId>> missing = new LinkedHashSet<>(shorted);
    for (BoardFinding board : findings.boards()) {
      missing.removeIf(nets -> nets.contains(board.net()));
      if (shorted.stream().noneMatch(nets -> nets.contains(board.net()))) {
        differences.add("a good board, but " + board);
      }
    }
    missing.forEach(nets -> differences.add("a short is not found among " + nets));
  }
}
