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
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Side;

/** The finding in a few capitals. Immutable. */
final class Headline {

  private static final int NAMED = 6;

  private final PadMap map;
  private final Words words;
  private final Standing standing;
  private final Complaint complaint;

  Headline(PadMap map, Words words, Standing standing, Complaint complaint) {
    this.map = map;
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
    Set<String> doubtful = new LinkedHashSet<>();
    for (Suspect s : standing.now()) {
      if (s.regions().equals(List.of(Region.board(side.other())))) {
        continue;
      }
      if (s.jointOrContact() || s.wavering()) {
        doubtful.addAll(s.positions());
      } else {
        faults.add(String.join("-", s.positions()));
      }
    }
    if (!faults.isEmpty()) {
      return "NOT YET: TOUCH UP " + few(faults);
    }
    doubtful.addAll(standing.undecided());
    if (!doubtful.isEmpty() && standing.isFresh()) {
      return "NOT YET: RE-SEAT FOR " + few(inMapOrder(doubtful));
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
        : "CLOSED, BUT NOT AS PREDICTED AT " + few(inMapOrder(faults));
  }

  private String found() {
    List<Suspect> firm = new ArrayList<>();
    Set<String> doubtful = new LinkedHashSet<>();
    for (Suspect s : standing.suspects()) {
      if (s.jointOrContact() || s.wavering()) {
        doubtful.addAll(s.positions());
      } else {
        firm.add(s);
      }
    }
    if (!firm.isEmpty()) {
      return places(firm);
    }
    if (!doubtful.isEmpty()) {
      return "NO STEADY PATH AT " + few(inMapOrder(doubtful)) + ": JOINT OR CONTACT";
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
    for (Suspect s : suspects) {
      int places = s.lead().component() instanceof Component.NetOf ? 1 : s.positions().size();
      if (s.placed() || s.regions().size() == 1) {
        byRegion
            .computeIfAbsent(what(s), k -> new LinkedHashMap<>())
            .merge(s.sureness(), places, Integer::sum);
      } else {
        List<String> kinds =
            s.members().stream().map(p -> words.kind(p.component())).distinct().toList();
        open.merge(Words.capitals(Words.or(kinds)), places, Integer::sum);
      }
    }
    List<String> phrases = new ArrayList<>();
    byRegion.forEach((what, counts) -> phrases.add(what + counted(counts)));
    open.forEach((kinds, n) -> phrases.add(pads(n) + " UNDECIDED: " + kinds));
    return String.join("; ", phrases);
  }

  private String what(Suspect suspect) {
    if (suspect.fault() == Fault.BRIDGED && suspect.positions().size() > 1) {
      return String.join("-", suspect.positions())
          + " JOINED ON "
          + Words.capitals(words.region(suspect.region()));
    }
    if (suspect.lead().component() instanceof Component.NetOf net) {
      return "NET "
          + net.net().name()
          + (suspect.fault() == Fault.DIFFERENT ? " DIFFERENT" : " SHORTED")
          + " ON "
          + Words.capitals(words.board(net.net().side()));
    }
    return Words.capitals(words.region(suspect.region()));
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

  private List<String> inMapOrder(Set<String> ids) {
    return map.positions().keySet().stream().filter(ids::contains).toList();
  }
}
