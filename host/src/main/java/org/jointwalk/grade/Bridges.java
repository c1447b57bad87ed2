package org.jointwalk.grade;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.PairEstimate;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Role;

/**
 * Says of each join of two nets whether it is a bridge between neighbours or a fault of the board.
 * Made anew for each look at the estimates.
 */
final class Bridges {

  /** More than this share of the part that is there by design is no metal beside it. */
  private static final double LIKE_A_LOAD = 0.1;

  private final Assembly assembly;
  private final Ring ring;
  private final Knowledge knowledge;
  private final Separation separation;

  Bridges(Assembly assembly, Ring ring, Knowledge knowledge, Separation separation) {
    this.assembly = assembly;
    this.ring = ring;
    this.knowledge = knowledge;
    this.separation = separation;
  }

  /**
   * The joined positions, one pair per two joined nets: the one with the least resistance. What is
   * no net of a board, an open pad or a land of the bare interposer, is named by its position even
   * when it is joined to no neighbour.
   */
  List<BridgeFinding> found() {
    Map<List<String>, BridgeFinding> found = new LinkedHashMap<>();
    separation
        .joined()
        .forEach(
            (nodes, pair) -> {
              boolean nets = isOfNets(nodes);
              boolean board = nets && (isPower(pair) || isLikeALoad(pair));
              if (!board && !isOwnPath(pair)) {
                place(nodes, pair)
                    .or(() -> nets ? Optional.empty() : probes(pair))
                    .map(p -> bridge(p, pair))
                    .ifPresent(
                        bridge -> found.putIfAbsent(List.of(bridge.a(), bridge.b()), bridge));
              }
            });
    return List.copyOf(found.values());
  }

  private BridgeFinding bridge(Ring.Neighbours place, PairEstimate pair) {
    String a = place.a().position();
    String b = place.b().position();
    return a.compareTo(b) < 0
        ? new BridgeFinding(a, b, separation.ohms(pair))
        : new BridgeFinding(b, a, separation.ohms(pair));
  }

  /** The neighbours of two joined nets that were read, or the first of them when none was. */
  private Optional<Ring.Neighbours> place(Set<Object> nodes, PairEstimate pair) {
    List<Ring.Neighbours> places = places(nodes);
    return places.stream()
        .filter(p -> Set.<Contact>of(p.a(), p.b()).equals(Set.of(pair.step().a(), pair.step().b())))
        .findFirst()
        .or(() -> places.stream().findFirst());
  }

  private List<Ring.Neighbours> places(Set<Object> nodes) {
    List<Ring.Neighbours> places = new ArrayList<>();
    // Solder may lie behind a gap, at a pad that is not reached there.
    List<Ring.Neighbours> behind = new ArrayList<>();
    for (Ring.Neighbours pair : ring.neighbours()) {
      Object a = knowledge.meets(pair.a());
      Object b = knowledge.meets(pair.b());
      if (!a.equals(b) && nodes.contains(a) && nodes.contains(b)) {
        places.add(pair);
      } else if (nodes.contains(assembly.home(pair.a()))
          && nodes.contains(assembly.home(pair.b()))
          && !assembly.home(pair.a()).equals(assembly.home(pair.b()))) {
        behind.add(pair);
      }
    }
    places.addAll(behind);
    return places;
  }

  /** The positions at which a join was read, when there are two. */
  private static Optional<Ring.Neighbours> probes(PairEstimate pair) {
    return pair.step().a() instanceof Contact.Pad a
            && pair.step().b() instanceof Contact.Pad b
            && !a.position().equals(b.position())
        ? Optional.of(new Ring.Neighbours(a, b))
        : Optional.empty();
  }

  /** Whether both nodes are nets of a board, and neither an open pad that stands for itself. */
  private static boolean isOfNets(Set<Object> nodes) {
    return nodes.stream().allMatch(Node.OnBoard.class::isInstance);
  }

  /** Whether what was read lies between an open pad and its own net: no two nets are joined. */
  private boolean isOwnPath(PairEstimate pair) {
    return assembly.home(pair.step().a()).equals(assembly.home(pair.step().b()));
  }

  /**
   * By position, what lies between a pad and its own net when that is more than a resistance step
   * reads, so that the pad passed for open.
   */
  Map<String, Estimate> ownPaths() {
    Map<String, Estimate> paths = new LinkedHashMap<>();
    for (PairEstimate pair : separation.joined().values()) {
      for (Contact end : List.of(pair.step().a(), pair.step().b())) {
        if (isOwnPath(pair) && end instanceof Contact.Pad pad && !knowledge.everConducts(pad)) {
          paths.put(pad.position(), separation.ohms(pair));
        }
      }
    }
    return paths;
  }

  /**
   * Whether two nets that a part joins by design read less than it has, but not as little as metal:
   * another part or residue, which a reading cannot tell from each other.
   */
  private boolean isLikeALoad(PairEstimate pair) {
    return separation.ohms(pair).value() * pair.expectedSiemens() > LIKE_A_LOAD;
  }

  private boolean isPower(PairEstimate pair) {
    return Stream.of(pair.step().a(), pair.step().b())
        .flatMap(c -> assembly.net(c).stream())
        .allMatch(n -> n.role() == Role.RAIL || n.role() == Role.GROUND);
  }

  /**
   * Joined nets that a failed part can join as well as solder, rails and ground, and nets that are
   * joined although they lie nowhere side by side.
   */
  List<BoardFinding> shorted() {
    List<BoardFinding> found = new ArrayList<>();
    separation
        .joined()
        .forEach(
            (nodes, pair) -> {
              List<Ring.Neighbours> places = places(nodes);
              if (isOfNets(nodes) && (isPower(pair) || isLikeALoad(pair) || places.isEmpty())) {
                found.add(shorted(pair, places));
              }
            });
    unlocated(found);
    return found;
  }

  private BoardFinding shorted(PairEstimate pair, List<Ring.Neighbours> places) {
    List<Net> nets =
        Stream.of(pair.step().a(), pair.step().b())
            .map(c -> assembly.net(c).orElseThrow())
            .sorted(
                Comparator.comparing((Net n) -> n.role() == Role.GROUND)
                    .thenComparing(n -> n.id().name()))
            .toList();
    Net net = nets.get(0);
    return new BoardFinding(
        net.id(),
        isLikeALoad(pair) ? BoardFinding.Fault.DIFFERENT : BoardFinding.Fault.SHORTED,
        Words.shorted(
            net,
            nets.get(1),
            separation.ohms(pair),
            pair.expectedSiemens(),
            places.stream().map(p -> p.a().position() + "-" + p.b().position()).toList()));
  }

  /**
   * A group reading whose join was not found, because the pass ended before, is not passed over.
   */
  private void unlocated(List<BoardFinding> found) {
    for (Separation.Groups group : separation.unexplained()) {
      group.high().values().stream()
          .flatMap(c -> assembly.net(c).stream())
          .findFirst()
          .ifPresent(
              net ->
                  found.add(
                      new BoardFinding(
                          net.id(),
                          BoardFinding.Fault.SHORTED,
                          Words.format(
                              "two nets are joined that are no neighbours: %s or one of %d read"
                                  + " with it, and one of %d others; the pass ended before they"
                                  + " were found",
                              net.id().name(), group.high().size() - 1, group.low().size()))));
    }
  }
}
