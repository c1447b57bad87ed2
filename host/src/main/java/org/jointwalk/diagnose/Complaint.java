package org.jointwalk.diagnose;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.job.Region;
import org.jointwalk.job.Verdict.Fit;
import org.jointwalk.job.Verdict.Group;
import org.jointwalk.job.Verdict.Sureness;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;

/** What the customer said against what was found. Immutable. */
final class Complaint {

  private final PadMap map;
  private final Words words;
  private final Standing standing;
  private final Evidence evidence;
  private final List<String> fails;
  private final WorksClamped works;
  private final Set<String> explained = new LinkedHashSet<>();
  private final Set<String> telling = new LinkedHashSet<>();
  private final Set<String> feeding = new LinkedHashSet<>();

  Complaint(PadMap map, Words words, Standing standing, Evidence evidence) {
    this.map = map;
    this.words = words;
    this.standing = standing;
    this.evidence = evidence;
    this.fails = standing.job().intake().fails();
    this.works = standing.job().clamped();
    for (Suspect suspect : found()) {
      for (Net net : nets(suspect)) {
        judge(net, suspect);
      }
    }
  }

  /** What is more than a poor contact or a first glance. */
  private List<Suspect> found() {
    return standing.cameIn().stream()
        .filter(s -> !s.jointOrContact() && (!s.clues().isEmpty() || s.placed()))
        .toList();
  }

  private void judge(Net net, Suspect suspect) {
    Optional<String> function = fails.stream().filter(net.function()::equalsIgnoreCase).findFirst();
    if (function.isPresent()) {
      explained.add(function.get());
      telling.addAll(suspect.positions());
    } else if (net.role() == Role.RAIL
        || net.role() == Role.GROUND
        || net.function().equals("unknown")) {
      feeding.addAll(suspect.positions());
    }
  }

  private List<Net> nets(Suspect suspect) {
    if (suspect.lead().component() instanceof Component.NetOf net) {
      return List.of(map.net(net.net()));
    }
    List<Net> nets = new ArrayList<>();
    for (String id : suspect.positions()) {
      for (Side side : Side.values()) {
        nets.add(map.netAt(id, side));
      }
    }
    return nets;
  }

  Fit fit() {
    if (fails.isEmpty()) {
      return Fit.NOT_SAID;
    }
    if (found().isEmpty()) {
      return Fit.NOTHING_FOUND;
    }
    if (explained.size() == Set.copyOf(fails).size()) {
      return Fit.FITS;
    }
    return explained.isEmpty() && feeding.isEmpty() ? Fit.DOES_NOT_FIT : Fit.MAY_FIT;
  }

  /** Whether the device still fails and nothing that was found can be why. */
  boolean stands() {
    return !fails.isEmpty() && (found().isEmpty() || fit() == Fit.DOES_NOT_FIT);
  }

  /** The reasons for the fit, and what the trial with the halves pressed together says. */
  List<String> remarks() {
    List<String> remarks = new ArrayList<>();
    if (!explained.isEmpty()) {
      remarks.add(
          Words.sentence(Words.and(List.copyOf(explained)))
              + (explained.size() == 1 ? " runs" : " run")
              + " through "
              + Words.ids(words.ordered(telling))
              + ".");
    }
    List<String> open = fails.stream().filter(f -> !explained.contains(f)).distinct().toList();
    if (!found().isEmpty() && !open.isEmpty()) {
      remarks.add(
          feeding.isEmpty()
              ? "Nothing that was found explains " + Words.and(open) + "."
              : Words.ids(words.ordered(feeding))
                  + (feeding.size() == 1 ? " is" : " are")
                  + " on a supply, on ground or on a net of unknown use, which may explain "
                  + Words.and(open)
                  + ".");
    }
    switch (works) {
      case YES -> remarks.add("It works while pressed together: that speaks for joints.");
      case SOMETIMES ->
          remarks.add("It works sometimes while pressed together: that speaks weakly for joints.");
      case NO ->
          remarks.add(
              "It does not work while pressed together: that speaks against joints and for a"
                  + " board.");
      case NOT_TRIED -> {}
    }
    return remarks;
  }

  /**
   * Who is suspected when all that can be seen is good and the complaint stands: the boards' parts
   * that do not show, and rows of joints that were lost before anybody measured them.
   */
  List<Group> unseenSuspects() {
    Map<Region, Double> weights = new EnumMap<>(Region.class);
    Map<Region, Group> groups = new EnumMap<>(Region.class);
    Optional<Side> carrier = carrier();
    for (Side side : Side.values()) {
      boolean other = carrier.isPresent() && carrier.get() != side;
      weights.put(Region.board(side), other ? Odds.OTHER_BOARD : Odds.CARRYING_BOARD);
      if (isLostUnmeasured(side)) {
        weights.put(Region.joints(side), Odds.LOST_ROW * Odds.clamped(works));
      }
    }
    double all = weights.values().stream().mapToDouble(Double::doubleValue).sum();
    weights.forEach((region, weight) -> groups.put(region, unseen(region, weight / all, carrier)));
    return groups.entrySet().stream()
        .sorted(Comparator.comparingDouble(e -> -weights.getOrDefault(e.getKey(), 0.0)))
        .map(Map.Entry::getValue)
        .toList();
  }

  private Group unseen(Region region, double share, Optional<Side> carrier) {
    // Nothing here was measured, so it is never more than probable.
    Sureness sureness = share >= Odds.PROBABLY ? Sureness.PROBABLY : Sureness.UNDECIDED;
    for (Side side : Side.values()) {
      if (region == Region.board(side)) {
        List<Component> hidden = new ArrayList<>();
        fails.stream().distinct().forEach(f -> hidden.add(new Component.Hidden(side, f)));
        String carries =
            carrier.isPresent() && carrier.get() == side
                ? "It carries " + Words.and(fails) + ". "
                : "";
        return new Group(
            List.of(region),
            hidden,
            List.of(),
            sureness,
            carries + "All that can be seen is good; a dead part can read normal at DC.");
      }
      if (region == Region.joints(side)) {
        List<String> positions = serving();
        List<Component> joints = new ArrayList<>();
        positions.forEach(id -> joints.add(new Component.Joint(side, id)));
        return new Group(
            List.of(region),
            joints,
            positions,
            sureness,
            "By exclusion: the " + words.region(region) + " were lost before they were measured.");
      }
    }
    throw new IllegalArgumentException(region + " hides nothing");
  }

  /** Whether a row that came in was lost and no pass had met it. */
  private boolean isLostUnmeasured(Side side) {
    return standing.lostRow(side)
        && map.positions().keySet().stream()
            .noneMatch(id -> evidence.met(new Part(new Component.Joint(side, id), 0)));
  }

  /** The positions that serve a failing function; all of them when the map knows none. */
  private List<String> serving() {
    List<String> serving =
        map.positions().values().stream()
            .filter(p -> List.of(Side.values()).stream().anyMatch(s -> serves(map.net(p.net(s)))))
            .map(Position::id)
            .toList();
    return serving.isEmpty() ? List.copyOf(map.positions().keySet()) : serving;
  }

  private boolean serves(Net net) {
    return fails.stream().anyMatch(net.function()::equalsIgnoreCase);
  }

  /** The board that carries the failing functions, when the map tells. */
  Optional<Side> carrier() {
    Map<Side, Integer> nets = new EnumMap<>(Side.class);
    Map<Side, Integer> loads = new EnumMap<>(Side.class);
    for (Side side : Side.values()) {
      Set<String> names = new LinkedHashSet<>();
      for (Net net : map.nets().values()) {
        if (net.id().side() == side && serves(net)) {
          names.add(net.id().name());
        }
      }
      nets.put(side, names.size());
      loads.put(side, (int) map.loads().stream().filter(l -> hangsOn(l, side, names)).count());
    }
    return larger(nets).or(() -> larger(loads));
  }

  private static boolean hangsOn(Load load, Side side, Set<String> names) {
    return load.side() == side && (names.contains(load.from()) || names.contains(load.to()));
  }

  private static Optional<Side> larger(Map<Side, Integer> counts) {
    int upper = counts.getOrDefault(Side.UPPER, 0);
    int lower = counts.getOrDefault(Side.LOWER, 0);
    if (upper == lower) {
      return Optional.empty();
    }
    return Optional.of(upper > lower ? Side.UPPER : Side.LOWER);
  }

  /** Nets of a board that serve a failing function, by name. */
  List<String> netsToHunt(Side side) {
    return map.nets().values().stream()
        .filter(n -> n.id().side() == side && serves(n))
        .map(Net::id)
        .map(NetId::name)
        .toList();
  }
}
