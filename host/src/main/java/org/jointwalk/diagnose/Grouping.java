package org.jointwalk.diagnose;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jointwalk.job.Region;
import org.jointwalk.job.Verdict.Group;
import org.jointwalk.job.Verdict.Sureness;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.SetUp;

/**
 * Puts suspects that the same evidence leaves in the same kinds of part into one group each.
 * Immutable.
 */
final class Grouping {

  /** What members of one group have in common. */
  private record Key(
      Collection<Region> regions,
      Collection<String> kinds,
      Sureness sureness,
      boolean path,
      String why,
      boolean contact) {}

  private final Words words;

  Grouping(Words words) {
    this.words = words;
  }

  /** The groups, the surest first, then the largest. */
  List<Group> of(List<Suspect> suspects) {
    Map<Key, List<Suspect>> byKey = new LinkedHashMap<>();
    for (Suspect s : suspects) {
      byKey.computeIfAbsent(key(s), k -> new ArrayList<>()).add(s);
    }
    List<Group> groups = new ArrayList<>();
    byKey.forEach((key, members) -> groups.add(group(key, members)));
    groups.sort(
        Comparator.comparing(Group::sureness)
            .thenComparing(g -> -g.positions().size())
            .thenComparing(g -> g.components().toString()));
    return groups;
  }

  private Key key(Suspect s) {
    List<String> kinds = kinds(s);
    // Where nothing is decided the order of what is about as likely does not part a group.
    return s.placed()
        ? new Key(s.regions(), kinds, s.sureness(), s.fault().isPath(), why(s), s.jointOrContact())
        : new Key(
            Set.copyOf(s.regions()),
            Set.copyOf(kinds),
            s.sureness(),
            s.fault().isPath(),
            why(s),
            s.jointOrContact());
  }

  private Group group(Key key, List<Suspect> members) {
    Set<String> positions = new LinkedHashSet<>();
    Set<Component> components = new LinkedHashSet<>();
    for (Suspect s : members) {
      positions.addAll(s.positions());
      s.members().forEach(part -> components.add(part.component()));
      if (s.jointOrContact()) {
        components.addAll(probes(s));
      }
    }
    return new Group(
        members.get(0).regions(),
        List.copyOf(components),
        words.ordered(positions),
        key.sureness(),
        because(key, members));
  }

  /** The probes that may not have landed; at access points it is not known which. */
  private static List<Component> probes(Suspect suspect) {
    SetUp setUp = suspect.clues().get(0).pass().setUp();
    List<Component> probes = new ArrayList<>();
    for (Plate plate : Plate.values()) {
      if (setUp.touches(plate).isPresent()) {
        for (String id : suspect.positions()) {
          probes.add(new Component.Probe(new Contact.Pad(plate, id)));
        }
      }
    }
    return probes;
  }

  private List<String> kinds(Suspect suspect) {
    return suspect.members().stream().map(p -> words.kind(p.component())).distinct().toList();
  }

  private String because(Key key, List<Suspect> members) {
    List<String> sentences = new ArrayList<>(measured(members));
    if (!key.why().isEmpty()) {
      sentences.add(key.why());
    }
    if (key.contact()) {
      sentences.add("Read in one clamping only: joint or contact.");
    }
    List<String> kinds = kinds(members.get(0)).stream().map(k -> "the " + k).toList();
    if (kinds.size() > 1 && key.sureness() == Sureness.UNDECIDED) {
      sentences.add(
          Words.sentence(Words.and(kinds))
              + " cannot be told apart by what was measured; the likeliest stands first, from"
              + " assumed rates.");
    } else if (kinds.size() > 1) {
      sentences.add(
          "What was measured does not rule out "
              + Words.or(kinds.subList(1, kinds.size()))
              + "; that is unlikely, from assumed rates.");
    }
    return String.join(" ", sentences);
  }

  /** What was read, one sentence for each set-up. */
  private List<String> measured(List<Suspect> members) {
    Map<String, Map<String, Set<String>>> bySetUp = new TreeMap<>();
    for (Suspect s : members) {
      for (Clue clue : s.clues()) {
        bySetUp
            .computeIfAbsent(clue.pass().setUp().title(), k -> new LinkedHashMap<>())
            .computeIfAbsent(clue.fault().words(), k -> new LinkedHashSet<>())
            .add(place(clue));
      }
    }
    List<String> sentences = new ArrayList<>();
    bySetUp.forEach(
        (title, byFault) -> {
          List<String> faults = new ArrayList<>();
          byFault.forEach(
              (fault, where) -> faults.add(fault + " at " + Words.ids(List.copyOf(where))));
          sentences.add(Words.sentence(title) + ": " + Words.and(faults) + ".");
        });
    return sentences;
  }

  private String place(Clue clue) {
    if (clue.fault() == Fault.BRIDGED) {
      return String.join("-", clue.positions())
          + clue.ohms().map(e -> " (" + Words.ohms(e.value()) + ")").orElse("");
    }
    if (clue.among().get(0).component() instanceof Component.NetOf net) {
      return net.net().name();
    }
    String ids = String.join("/", clue.positions());
    return clue.ohms()
        .map(
            e ->
                ids
                    + " ("
                    + Words.ohms(e.value())
                    + clue.limit().map(l -> ", limit " + Words.ohms(l.value())).orElse("")
                    + ")")
        .orElse(ids);
  }

  /** What besides the reading itself speaks for the members. */
  private String why(Suspect s) {
    List<String> reasons = new ArrayList<>();
    s.look().ifPresent(look -> reasons.add("Seen there: " + Words.look(look) + "."));
    if (s.alone() && s.regions().size() == 1) {
      reasons.add("Measured where nothing else is in the path.");
    }
    Set<String> excluded = new TreeSet<>();
    s.cleared().forEach((part, pass) -> excluded.add(excused(part, pass)));
    if (!excluded.isEmpty() && !s.alone()) {
      reasons.add("By exclusion: " + Words.and(List.copyOf(excluded)) + ".");
    }
    Set<String> before = new TreeSet<>();
    s.goodBefore().forEach(part -> before.add("the " + words.kind(part.component())));
    if (!before.isEmpty()) {
      reasons.add(
          Words.sentence(Words.and(List.copyOf(before)))
              + (before.size() == 1 ? " was" : " were")
              + " good before the work.");
    }
    elsewhere(s, reasons);
    if (s.wavering()) {
      reasons.add(
          "Another pass found the same path good: it comes and goes, or it was mended without"
              + " a record.");
    }
    if (s.clues().isEmpty()) {
      reasons.add("Not measured.");
    }
    return String.join(" ", reasons);
  }

  private String excused(Part part, GradedPass pass) {
    String witness = " (" + pass.setUp().title() + ")";
    return part.component() instanceof Component.NetOf net
        ? "the " + words.board(net.net().side()) + " does not show it" + witness
        : "the " + words.kind(part.component()) + " is good" + witness;
  }

  /** Parts that may be it instead and that are not those meant here. */
  private void elsewhere(Suspect s, List<String> reasons) {
    Set<String> lost = new TreeSet<>();
    Set<String> fresh = new TreeSet<>();
    for (Part part : s.elsewhere()) {
      (part.life() == 0 ? lost : fresh).add("the " + words.kind(part.component()));
    }
    if (!lost.isEmpty()) {
      reasons.add("Or it was in " + Words.or(List.copyOf(lost)) + ", since lost or renewed.");
    }
    if (!fresh.isEmpty()) {
      reasons.add("Or it is in " + Words.or(List.copyOf(fresh)) + ", made during the work.");
    }
  }
}
