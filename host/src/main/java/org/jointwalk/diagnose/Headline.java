package org.jointwalk.diagnose;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Region;
import org.jointwalk.job.Verdict.Sureness;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Side;

/** The finding in a few capitals. Immutable. */
final class Headline {

  private static final int NAMED = 6;

  private final Words words;
  private final Standing standing;
  private final Complaint complaint;

  Headline(Words words, Standing standing, Complaint complaint) {
    this.words = words;
    this.standing = standing;
    this.complaint = complaint;
  }

  String text() {
    if (standing.last().isEmpty()) {
      return "NOTHING MEASURED YET";
    }
    if (standing.attachment() == Attachment.BOTH && standing.wasSplit()) {
      return closed();
    }
    Optional<Side> remade = standing.heldBy().filter(standing::isRemade);
    return remade.map(this::reballed).orElseGet(this::found);
  }

  private String reballed(Side side) {
    Optional<GradedPass> check = standing.standing(Standing.on(side));
    if (check.isEmpty()) {
      return "THE " + row(side) + " SIDE WAS SOLDERED AND IS NOT CHECKED YET";
    }
    List<String> faults = new ArrayList<>();
    List<String> shorts = new ArrayList<>();
    Set<String> doubtful = new LinkedHashSet<>();
    for (Suspect s : standing.now()) {
      if (s.regions().equals(List.of(Region.board(side.other())))) {
        continue;
      }
      if (s.isDoubtful()) {
        doubtful.addAll(s.positions());
      } else if (s.lead().component() instanceof Component.NetOf net) {
        shorts.add(net.net().name());
      } else {
        faults.add(String.join("-", s.positions()));
      }
    }
    if (!faults.isEmpty()) {
      return "NOT YET: TOUCH UP " + few(faults);
    }
    if (!shorts.isEmpty()) {
      return "NOT YET: NET " + few(shorts) + " READS WRONG";
    }
    doubtful.addAll(standing.undecided());
    if (!doubtful.isEmpty() && standing.isFresh()) {
      return "NOT YET: RE-SEAT FOR " + few(words.ordered(doubtful));
    }
    return "THIS SIDE TOOK: "
        + share(check.get().findings())
        + " THAT CAN BE SEEN; THE "
        + row(side.other())
        + " SIDE DOES NOT EXIST YET";
  }

  private String closed() {
    Optional<GradedPass> check = standing.standing(Standing.joined());
    if (check.isEmpty()) {
      return "CLOSED AND NOT CHECKED YET";
    }
    Set<String> faults = new LinkedHashSet<>();
    standing.now().forEach(s -> faults.addAll(s.positions()));
    return faults.isEmpty()
        ? "CLOSED: " + share(check.get().findings()) + " THAT CAN BE SEEN READ AS PREDICTED"
        : "CLOSED, BUT NOT AS PREDICTED AT " + few(words.ordered(faults));
  }

  private String found() {
    List<Suspect> firm = new ArrayList<>();
    Set<String> doubtful = new LinkedHashSet<>();
    for (Suspect s : standing.suspects()) {
      if (s.isDoubtful()) {
        doubtful.addAll(s.positions());
      } else {
        firm.add(s);
      }
    }
    if (!firm.isEmpty()) {
      return places(firm);
    }
    if (!doubtful.isEmpty()) {
      return "NO STEADY PATH AT " + few(words.ordered(doubtful)) + ": JOINT OR CONTACT";
    }
    List<String> undecided = standing.undecided();
    if (!undecided.isEmpty()) {
      return "NO FAULT SEEN; NOT DECIDED AT " + few(undecided);
    }
    String soFar = standing.isAllMeasured() ? "" : " SO FAR";
    return "ALL THAT CAN BE SEEN"
        + soFar
        + " IS GOOD"
        + (complaint.stands() && soFar.isEmpty() ? "; THE COMPLAINT STANDS" : "");
  }

  /** The regions with how many places each and how sure, what is undecided last. */
  private String places(List<Suspect> suspects) {
    Map<String, Map<Sureness, Integer>> byRegion = new LinkedHashMap<>();
    Map<String, Integer> open = new LinkedHashMap<>();
    Set<String> named = new LinkedHashSet<>();
    for (Suspect s : suspects) {
      Optional<String> name = name(s);
      if (name.isPresent()) {
        named.add(name.get());
      } else if (s.placed() || s.regions().size() == 1) {
        byRegion
            .computeIfAbsent(words.region(s.region()), k -> new LinkedHashMap<>())
            .merge(s.sureness(), s.positions().size(), Integer::sum);
      } else {
        open.merge(kinds(s), s.positions().size(), Integer::sum);
      }
    }
    List<String> phrases = new ArrayList<>();
    byRegion.forEach((where, counts) -> phrases.add(Words.capitals(where) + counted(counts)));
    phrases.addAll(named);
    open.forEach((kinds, n) -> phrases.add(pads(n) + " UNDECIDED: " + kinds));
    return String.join("; ", phrases);
  }

  /** A fault that has a name of its own: a net, or two pads that are joined. */
  private Optional<String> name(Suspect suspect) {
    String where = " ON " + Words.capitals(words.region(suspect.region()));
    if (suspect.fault() == Fault.BRIDGED && suspect.positions().size() > 1) {
      String pair = String.join("-", suspect.positions()) + " JOINED";
      return Optional.of(
          suspect.placed() || suspect.regions().size() == 1
              ? pair + where + " (" + word(suspect.sureness()) + ")"
              : pair + ", UNDECIDED: " + kinds(suspect));
    }
    if (suspect.lead().component() instanceof Component.NetOf net) {
      return Optional.of(
          "NET "
              + net.net().name()
              + (suspect.fault() == Fault.DIFFERENT ? " DIFFERENT" : " SHORTED")
              + where
              + " ("
              + word(suspect.sureness())
              + ")");
    }
    return Optional.empty();
  }

  private String kinds(Suspect suspect) {
    return Words.capitals(
        Words.or(
            suspect.members().stream().map(p -> words.kind(p.component())).distinct().toList()));
  }

  private static String counted(Map<Sureness, Integer> counts) {
    int all = counts.values().stream().mapToInt(Integer::intValue).sum();
    List<String> sure = new ArrayList<>();
    counts.forEach(
        (sureness, n) -> sure.add(counts.size() == 1 ? word(sureness) : n + " " + word(sureness)));
    return " AT " + pads(all) + " (" + String.join(", ", sure) + ")";
  }

  private static String word(Sureness sureness) {
    return switch (sureness) {
      case LOCATED -> "LOCATED";
      case PROBABLY -> "PROBABLY";
      case UNDECIDED -> "PERHAPS";
    };
  }

  private static String pads(int n) {
    return Words.count(n, "PAD", "PADS");
  }

  private static String share(Findings findings) {
    Map<Grade, Integer> counts = findings.counts();
    int good = counts.getOrDefault(Grade.GOOD, 0) + counts.getOrDefault(Grade.UNRESOLVED, 0);
    int unseen =
        counts.getOrDefault(Grade.MASKED, 0)
            + counts.getOrDefault(Grade.LOST_BY_SPLIT, 0)
            + counts.getOrDefault(Grade.NOT_TESTED, 0);
    return good + " OF " + (findings.positions().size() - unseen);
  }

  private static String row(Side side) {
    return Words.capitals(Words.side(side));
  }

  private static String few(List<String> places) {
    int more = places.size() - NAMED;
    return more <= 0
        ? String.join(", ", places)
        : String.join(", ", places.subList(0, NAMED)) + " AND " + more + " MORE";
  }
}
