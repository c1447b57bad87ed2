package org.jointwalk.diagnose;

import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.jointwalk.job.Region;
import org.jointwalk.job.Seen;
import org.jointwalk.job.Verdict.Sureness;

/**
 * One fault with the parts that it can lie in.
 *
 * @param fault what is wrong
 * @param positions where, in map order
 * @param shares the parts with how likely each is it, most likely first, at least one
 * @param sureness how sure it is that the fault lies in the first region
 * @param clues what says so; empty when it was only seen
 * @param cleared parts that were suspected and are proven good, each with the proof
 * @param goodBefore parts that were good until something was done to them
 * @param elsewhere parts that may be it as well and are left out here, see {@link #among}
 * @param look what was seen at the first part, when it shows the fault
 * @param alone whether a pass met parts of the first region only and found the fault there
 * @param confirmed whether it stands on more than one clamping's word
 * @param wavering whether another pass found the same path good
 */
record Suspect(
    Fault fault,
    List<String> positions,
    Map<Part, Double> shares,
    Sureness sureness,
    List<Clue> clues,
    Map<Part, GradedPass> cleared,
    Set<Part> goodBefore,
    Set<Part> elsewhere,
    Optional<Seen.Look> look,
    boolean alone,
    boolean confirmed,
    boolean wavering) {

  Suspect {
    shares = Collections.unmodifiableMap(new LinkedHashMap<>(shares));
  }

  /** The parts, most likely first. */
  List<Part> members() {
    return List.copyOf(shares.keySet());
  }

  /** The likeliest part. */
  Part lead() {
    return shares.keySet().iterator().next();
  }

  /** Where the parts lie, most likely first. */
  List<Region> regions() {
    return List.copyOf(byRegion(shares, isBare(clues)).keySet());
  }

  Region region() {
    return regions().get(0);
  }

  /** Whether current was missed where it might only be the probe. */
  boolean jointOrContact() {
    return fault.isPath() && !clues.isEmpty() && !confirmed && sureness == Sureness.UNDECIDED;
  }

  /** Whether another clamping may make it vanish. */
  boolean isDoubtful() {
    return jointOrContact() || wavering;
  }

  /** Whether the place is known well enough to act on it alone. */
  boolean placed() {
    return sureness != Sureness.UNDECIDED;
  }

  /**
   * The same fault among some of its parts only; empty when it is hardly among them.
   *
   * @param which the parts that are left
   */
  Optional<Suspect> among(Predicate<Part> which) {
    Map<Part, Double> left = new LinkedHashMap<>();
    Set<Part> out = new LinkedHashSet<>(elsewhere);
    shares.forEach(
        (part, share) -> {
          if (which.test(part)) {
            left.put(part, share);
          } else {
            out.add(part);
          }
        });
    if (left.isEmpty() || sum(left) < Odds.WORTH_SUSPECTING * sum(shares)) {
      return Optional.empty();
    }
    return Optional.of(
        new Suspect(
            fault,
            positions,
            left,
            which.test(lead()) ? sureness : Sureness.UNDECIDED,
            clues,
            cleared,
            goodBefore,
            out,
            look.filter(l -> which.test(lead())),
            alone,
            confirmed,
            wavering));
  }

  static double sum(Map<Part, Double> shares) {
    return shares.values().stream().mapToDouble(Double::doubleValue).sum();
  }

  /** The share of each region, the largest first. */
  static Map<Region, Double> byRegion(Map<Part, Double> shares, boolean bare) {
    Map<Region, Double> regions = new EnumMap<>(Region.class);
    shares.forEach((part, share) -> regions.merge(region(part, bare), share, Double::sum));
    Map<Region, Double> ordered = new LinkedHashMap<>();
    regions.entrySet().stream()
        .sorted(Comparator.comparingDouble(e -> -e.getValue()))
        .forEach(e -> ordered.put(e.getKey(), e.getValue()));
    return ordered;
  }

  static boolean isBare(List<Clue> clues) {
    return !clues.isEmpty() && clues.get(0).pass().setUp().bare();
  }

  /** Where a part lies; what joins two lands of a bare interposer lies on the interposer. */
  static Region region(Part part, boolean bare) {
    return bare
        ? Region.INTERPOSER
        : Region.of(part.component())
            .orElseThrow(() -> new IllegalArgumentException(part + " lies in no region"));
  }
}
