package org.jointwalk.diagnose;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.job.Region;
import org.jointwalk.job.Seen;
import org.jointwalk.job.Verdict.Sureness;
import org.jointwalk.stack.PadMap;

/**
 * Joins clues that one fault explains and weighs the parts that are left.
 *
 * <p>A clue whose parts include all that is left of another at the same place is explained by the
 * smaller one. Immutable; cost is linear in the clues, but for those at one position.
 */
final class Suspects {

  private final Map<String, Integer> place = new HashMap<>();
  private final Lives lives;
  private final Evidence evidence;
  private final Sights sights;
  private final List<Suspect> all = new ArrayList<>();
  private final List<Seen> connected = new ArrayList<>();

  Suspects(PadMap map, Lives lives, Evidence evidence, Sights sights) {
    map.positions().keySet().forEach(id -> place.put(id, place.size()));
    this.lives = lives;
    this.evidence = evidence;
    this.sights = sights;
    for (List<Evidence.Sifted> one : merged(evidence.sift())) {
      all.add(weigh(one));
    }
    addSeenOnly();
    all.sort(
        Comparator.comparing(Suspect::sureness)
            .thenComparing(s -> s.positions().isEmpty() ? -1 : placeOf(s.positions().get(0)))
            .thenComparing(s -> s.members().toString()));
    connected.sort(Comparator.comparing(seen -> placeOf(seen.position())));
  }

  /** Every suspect, the surest first, then in map order. */
  List<Suspect> all() {
    return List.copyOf(all);
  }

  /** What looks bad and was measured good as it is now. */
  List<Seen> seenButConnected() {
    return List.copyOf(connected);
  }

  private int placeOf(String id) {
    return place.getOrDefault(id, Integer.MAX_VALUE);
  }

  private static List<List<Evidence.Sifted>> merged(List<Evidence.Sifted> sifted) {
    List<Evidence.Sifted> ordered = new ArrayList<>(sifted);
    // By content and not by time, so that the order of independent passes does not matter.
    ordered.sort(
        Comparator.comparingInt((Evidence.Sifted s) -> s.left().size())
            .thenComparing(s -> s.left().toString())
            .thenComparing(s -> s.clue().fault())
            .thenComparing(s -> s.clue().pass().setUp().name()));
    Map<String, List<List<Evidence.Sifted>>> byPosition = new HashMap<>();
    List<List<Evidence.Sifted>> merged = new ArrayList<>();
    for (Evidence.Sifted s : ordered) {
      Set<List<Evidence.Sifted>> near = new LinkedHashSet<>();
      s.clue().positions().forEach(id -> near.addAll(byPosition.getOrDefault(id, List.of())));
      Optional<List<Evidence.Sifted>> home =
          near.stream().filter(group -> explains(group.get(0), s)).findFirst();
      if (home.isPresent()) {
        home.get().add(s);
        continue;
      }
      List<Evidence.Sifted> group = new ArrayList<>(List.of(s));
      merged.add(group);
      for (String id : s.clue().positions()) {
        byPosition.computeIfAbsent(id, k -> new ArrayList<>()).add(group);
      }
    }
    return merged;
  }

  private static boolean explains(Evidence.Sifted small, Evidence.Sifted large) {
    if (small.wavering() != large.wavering()) {
      return false;
    }
    Fault a = small.clue().fault();
    Fault b = large.clue().fault();
    Set<Part> left = Set.copyOf(large.left());
    return a == b
        ? left.containsAll(small.left())
        : a.isPath() && b.isPath() && left.equals(Set.copyOf(small.left()));
  }

  private Suspect weigh(List<Evidence.Sifted> one) {
    List<Clue> clues = one.stream().map(Evidence.Sifted::clue).toList();
    Fault fault = clues.stream().map(Clue::fault).min(Comparator.naturalOrder()).orElseThrow();
    Map<Part, GradedPass> cleared = new LinkedHashMap<>();
    Set<Part> goodBefore = new LinkedHashSet<>();
    for (Evidence.Sifted s : one) {
      cleared.putAll(s.cleared());
      goodBefore.addAll(s.goodBefore());
    }
    Evidence.Sifted smallest = one.get(0);
    Map<Part, Double> weights = new LinkedHashMap<>();
    for (Part part : smallest.left()) {
      double kept = goodBefore.contains(part) ? Odds.GOOD_BEFORE : 1;
      weights.put(part, kept * Odds.of(part, fault) * sights.factor(part));
    }
    boolean wavering = smallest.wavering();
    boolean confirmed = isConfirmed(clues);
    double all = Suspect.sum(weights) + Odds.contact(fault, confirmed && !wavering);
    weights.replaceAll((part, weight) -> weight / all);
    boolean bare = Suspect.isBare(clues);
    Map.Entry<Region, Double> first = Suspect.byRegion(weights, bare).entrySet().iterator().next();
    Map<Part, Double> shares = worthNaming(weights, goodBefore);
    Optional<Seen.Look> look = sights.shown(shares.keySet().iterator().next());
    boolean alone =
        clues.stream()
            .filter(Clue::confirmed)
            .anyMatch(
                c -> c.among().stream().allMatch(p -> Suspect.region(p, bare) == first.getKey()));
    return new Suspect(
        fault,
        positions(clues),
        shares,
        wavering || (fault.isPath() && !confirmed && look.isEmpty())
            ? Sureness.UNDECIDED
            : sureness(first.getValue(), alone || look.isPresent()),
        clues,
        cleared,
        goodBefore,
        Set.of(),
        look,
        alone,
        confirmed,
        wavering);
  }

  private static Sureness sureness(double share, boolean direct) {
    if (share < Odds.PROBABLY) {
      return Sureness.UNDECIDED;
    }
    return share >= Odds.LOCATED && direct ? Sureness.LOCATED : Sureness.PROBABLY;
  }

  private static boolean isConfirmed(List<Clue> clues) {
    Set<Clamping> clampings = new HashSet<>();
    clues.forEach(c -> clampings.addAll(c.pass().clampings()));
    // Two passes that clamped anew say as much as one pass with two seatings.
    return clues.stream().anyMatch(Clue::confirmed) || (clues.size() > 1 && clampings.size() > 1);
  }

  /** The parts without those that were good before the work and are hardly suspected. */
  private static Map<Part, Double> worthNaming(Map<Part, Double> shares, Set<Part> goodBefore) {
    boolean nothingElse = goodBefore.containsAll(shares.keySet());
    Map<Part, Double> named = new LinkedHashMap<>();
    shares.entrySet().stream()
        .sorted(Comparator.comparingDouble(e -> -e.getValue()))
        .forEach(
            e -> {
              boolean was = goodBefore.contains(e.getKey());
              if (nothingElse || !was || e.getValue() >= Odds.WORTH_NAMING) {
                named.put(e.getKey(), e.getValue());
              }
            });
    return named;
  }

  private List<String> positions(List<Clue> clues) {
    Set<String> ids = new HashSet<>();
    clues.forEach(c -> ids.addAll(c.positions()));
    return ids.stream().sorted(Comparator.comparing(this::placeOf)).toList();
  }

  /** What was seen and never measured at fault. */
  private void addSeenOnly() {
    Set<Part> suspected = new HashSet<>();
    all.forEach(s -> suspected.addAll(s.members()));
    sights
        .all()
        .forEach(
            (part, seen) -> {
              boolean about = Odds.subject(seen).filter(part.component()::equals).isPresent();
              if (!about || suspected.contains(part) || !place.containsKey(seen.position())) {
                return;
              }
              if (!evidence.isProvenGood(part)) {
                all.add(seenOnly(part, seen));
              } else if (lives.isThere(part)) {
                connected.add(seen);
              }
            });
  }

  private static Suspect seenOnly(Part part, Seen seen) {
    double bad = Odds.of(part, Fault.OPEN) + Odds.of(part, Fault.HIGH);
    double odds = bad * Odds.seen(seen.look(), part.component());
    double share = odds / (odds + 1 - bad);
    return new Suspect(
        Fault.OPEN,
        List.of(seen.position()),
        Map.of(part, share),
        sureness(share, false),
        List.of(),
        Map.of(),
        Set.of(),
        Set.of(),
        Optional.of(seen.look()),
        false,
        false,
        false);
  }
}
