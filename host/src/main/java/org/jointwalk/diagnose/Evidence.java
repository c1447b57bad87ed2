package org.jointwalk.diagnose;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Grade;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Side;

/**
 * What the graded passes say: clues, each with the parts that can be at fault, and proofs that a
 * part carried current. Immutable; built in one walk over the findings.
 */
final class Evidence {

  /**
   * A part was in a path that is connected.
   *
   * @param whole whether the path was good, and not only connected
   * @param blind the smallest resistance that would have shown, when a smaller one would not
   */
  private record Proof(GradedPass pass, boolean whole, Optional<Ohms> blind) {

    boolean excuses(Clue clue) {
      if (clue.fault() != Fault.HIGH) {
        // That current passes says nothing of what is joined.
        return clue.fault() == Fault.OPEN;
      }
      double read = clue.ohms().map(e -> e.value()).orElse(Double.POSITIVE_INFINITY);
      return whole && blind.map(b -> b.value() <= read).orElse(true);
    }
  }

  /**
   * A clue without what is proven good.
   *
   * @param clue the clue
   * @param left parts that can still be at fault, at least one
   * @param cleared parts that cannot, each with the pass that proves it
   * @param goodBefore parts of {@code left} that were good until something was done to them
   * @param wavering whether other passes clear every part, so that the fault comes and goes
   */
  record Sifted(
      Clue clue,
      List<Part> left,
      Map<Part, GradedPass> cleared,
      Set<Part> goodBefore,
      boolean wavering) {}

  private final PadMap map;
  private final Lives lives;
  private final List<GradedPass> passes;
  private final Map<Part, List<Proof>> proofs = new HashMap<>();
  private final List<Clue> clues = new ArrayList<>();

  Evidence(PadMap map, Lives lives, List<GradedPass> passes) {
    this.map = map;
    this.lives = lives;
    this.passes = passes;
    for (GradedPass pass : passes) {
      for (Finding finding : pass.findings().positions()) {
        keepProofs(pass, finding);
        if (finding.grade() == Grade.OPEN || finding.grade() == Grade.HIGH) {
          clues.add(atPosition(pass, finding));
        }
      }
      for (BridgeFinding bridge : pass.findings().bridges()) {
        clues.add(between(pass, bridge));
      }
      keepLoneBridged(pass);
      for (BoardFinding board : pass.findings().boards()) {
        clues.add(onBoard(pass, board));
      }
    }
  }

  /** Whether any pass has read a path through this part. */
  boolean met(Part part) {
    return proofs.containsKey(part)
        || clues.stream().anyMatch(clue -> clue.fault().isPath() && clue.among().contains(part));
  }

  /** Whether a part was found good after a clue and after something had been done to it. */
  boolean isGoodSince(Part part, List<Clue> clues) {
    return !clues.isEmpty()
        && proofs.getOrDefault(part, List.of()).stream()
            .anyMatch(
                proof ->
                    clues.stream()
                        .allMatch(
                            clue ->
                                proof.excuses(clue)
                                    && lives.touched(
                                        part.component(), clue.pass().seq(), proof.pass().seq())));
  }

  /** Whether a pass read a good path through this part. */
  boolean isProvenGood(Part part) {
    return proofs.getOrDefault(part, List.of()).stream().anyMatch(Proof::whole);
  }

  /**
   * Every clue without what is proven good. A clue of one clamping that another pass contradicts
   * outright was the probe, and is not among them.
   */
  List<Sifted> sift() {
    List<Sifted> sifted = new ArrayList<>();
    for (Clue clue : clues) {
      Sifted s = sift(clue);
      if (!s.wavering() || clue.confirmed()) {
        sifted.add(s);
      }
    }
    return sifted;
  }

  private Sifted sift(Clue clue) {
    Map<Part, GradedPass> cleared = new LinkedHashMap<>();
    Set<Part> contradicting = new LinkedHashSet<>();
    Set<Part> goodBefore = new LinkedHashSet<>();
    List<Part> left = new ArrayList<>();
    for (Part part : clue.among()) {
      Optional<GradedPass> witness = witness(part, clue);
      if (witness.isPresent()) {
        cleared.put(part, witness.get());
        if (sameSetUp(witness.get(), clue)) {
          contradicting.add(part);
        }
      } else {
        left.add(part);
        if (wasGoodBefore(part, clue)) {
          goodBefore.add(part);
        }
      }
    }
    if (!left.isEmpty()) {
      return new Sifted(clue, left, cleared, goodBefore, false);
    }
    // Cleared by another kind of pass still counts; only what contradicts itself is open again.
    List<Part> suspects =
        clue.among().stream().filter(part -> contradicting.contains(part)).toList();
    suspects.forEach(cleared::remove);
    return suspects.isEmpty()
        ? new Sifted(clue, clue.among(), Map.of(), Set.of(), true)
        : new Sifted(clue, suspects, cleared, Set.of(), true);
  }

  /** The pass that proves that a part did not have the fault of a clue when the clue was read. */
  private Optional<GradedPass> witness(Part part, Clue clue) {
    List<GradedPass> witnesses = new ArrayList<>();
    if (clue.fault().isPath()) {
      for (Proof proof : proofs.getOrDefault(part, List.of())) {
        if (proof.excuses(clue) && holds(part, clue, proof.pass())) {
          witnesses.add(proof.pass());
        }
      }
    } else {
      for (GradedPass pass : passes) {
        if (contradicts(pass, part, clue) && holds(part, clue, pass)) {
          witnesses.add(pass);
        }
      }
    }
    // The shortest path is the most telling witness, and the choice does not hang on the order.
    return witnesses.stream()
        .min(
            (a, b) -> {
              int bySize = Integer.compare(elements(a), elements(b));
              return bySize != 0 ? bySize : a.setUp().name().compareTo(b.setUp().name());
            });
  }

  /** Whether what one pass proves of a part holds for the moment of a clue. */
  private boolean holds(Part part, Clue clue, GradedPass pass) {
    long from = Math.min(pass.seq(), clue.pass().seq());
    long to = Math.max(pass.seq(), clue.pass().seq());
    if (from == to || !lives.part(part.component(), pass.seq()).equals(part)) {
      return false;
    }
    // Work tears pads and breaks vias; it does not mend them. A joint it may also mend.
    boolean lasting =
        part.component() instanceof Component.Pad || part.component() instanceof Component.Via;
    return !lives.touched(part.component(), from, to)
        || (lasting && pass.seq() > clue.pass().seq());
  }

  private boolean wasGoodBefore(Part part, Clue clue) {
    return proofs.getOrDefault(part, List.of()).stream()
        .anyMatch(proof -> proof.excuses(clue) && proof.pass().seq() < clue.pass().seq());
  }

  private boolean contradicts(GradedPass pass, Part part, Clue clue) {
    if (clue.fault() != Fault.BRIDGED) {
      boolean sees =
          sameSetUp(pass, clue)
              || (part.component() instanceof Component.NetOf net
                  && isLone(pass, net.net().side()));
      return sees
          && clue.positions().stream().anyMatch(pass::reads)
          && pass.findings().boards().stream().noneMatch(b -> clue.isAbout(b.net()));
    }
    boolean apart =
        clue.positions().stream().allMatch(pass::reads)
            && pass.findings().bridges().stream()
                .noneMatch(b -> List.of(b.a(), b.b()).equals(sorted(clue.positions())));
    if (part.component() instanceof Component.NetOf net) {
      return apart && (isLone(pass, net.net().side()) || sameSetUp(pass, clue));
    }
    return apart && sameSetUp(pass, clue);
  }

  private void keepProofs(GradedPass pass, Finding finding) {
    // A high path is no open one.
    if (finding.grade().isConnected() || finding.grade() == Grade.HIGH) {
      Proof proof = new Proof(pass, finding.grade() == Grade.GOOD, finding.detectable());
      Set<Component> path = new LinkedHashSet<>(pass.path(finding.position()));
      if (!path.isEmpty()) {
        path.addAll(pass.nets(finding.position()));
      }
      for (Component component : path) {
        proofs
            .computeIfAbsent(lives.part(component, pass.seq()), k -> new ArrayList<>())
            .add(proof);
      }
    }
  }

  private Clue atPosition(GradedPass pass, Finding finding) {
    List<Component> among =
        finding.among().stream().filter(c -> !(c instanceof Component.Probe)).toList();
    if (among.isEmpty()) {
      among = List.copyOf(pass.path(finding.position()));
    }
    if (among.isEmpty()) {
      // The tip lies on shared metal, and still no current came: anything there may be broken.
      among = pass.assembly().present(finding.position());
    }
    Set<String> concerned = new LinkedHashSet<>();
    concerned.add(finding.position());
    among.forEach(c -> positionOf(c).ifPresent(concerned::add));
    return new Clue(
        pass,
        Fault.of(finding.grade()),
        inMapOrder(concerned),
        parts(among, pass),
        finding.confirmed(),
        finding.ohms(),
        finding.limit());
  }

  private Clue between(GradedPass pass, BridgeFinding bridge) {
    Set<Component> among = new LinkedHashSet<>();
    List<Side> rows = List.copyOf(pass.setUp().joints());
    if (rows.isEmpty()) {
      rows = pass.setUp().bare() ? List.of(Side.values()) : List.copyOf(pass.setUp().boards());
    }
    for (Side row : rows) {
      among.add(new Component.Bridge(row, bridge.a(), bridge.b()));
    }
    among.addAll(pass.nets(bridge.a()));
    among.addAll(pass.nets(bridge.b()));
    return new Clue(
        pass,
        Fault.BRIDGED,
        inMapOrder(Set.of(bridge.a(), bridge.b())),
        parts(List.copyOf(among), pass),
        true,
        Optional.of(bridge.ohms()),
        Optional.empty());
  }

  /** A position graded as joined to nobody by name is still at fault. */
  private void keepLoneBridged(GradedPass pass) {
    Set<String> named = new LinkedHashSet<>();
    pass.findings().bridges().forEach(b -> named.addAll(List.of(b.a(), b.b())));
    for (Finding finding : pass.findings().graded(Grade.BRIDGED)) {
      if (!named.contains(finding.position())) {
        clues.add(atPosition(pass, finding));
      }
    }
  }

  private Clue onBoard(GradedPass pass, BoardFinding board) {
    List<String> pads = map.padsByNet(board.net().side()).getOrDefault(board.net(), List.of());
    Component net = new Component.NetOf(board.net());
    boolean again =
        passes.stream()
            .filter(other -> other.seq() != pass.seq())
            .filter(other -> lives.part(net, other.seq()).equals(lives.part(net, pass.seq())))
            .flatMap(other -> other.findings().boards().stream())
            .anyMatch(b -> b.net().equals(board.net()) && b.fault() == board.fault());
    Fault fault = board.fault() == BoardFinding.Fault.SHORTED ? Fault.SHORTED : Fault.DIFFERENT;
    List<Component> among = new ArrayList<>(List.of(net));
    if (fault == Fault.SHORTED) {
      // Solder may join the net to another at any of its joints.
      for (Side row : pass.setUp().joints()) {
        pads.forEach(id -> among.add(new Component.Joint(row, id)));
      }
    }
    return new Clue(
        pass, fault, pads, parts(among, pass), again, Optional.empty(), Optional.empty());
  }

  private List<Part> parts(List<Component> components, GradedPass pass) {
    return components.stream().map(c -> lives.part(c, pass.seq())).toList();
  }

  private List<String> inMapOrder(Set<String> ids) {
    return map.positions().keySet().stream().filter(ids::contains).toList();
  }

  private static Optional<String> positionOf(Component component) {
    if (component instanceof Component.Pad pad) {
      return Optional.of(pad.position());
    }
    if (component instanceof Component.Joint joint) {
      return Optional.of(joint.position());
    }
    return component instanceof Component.Via via ? Optional.of(via.position()) : Optional.empty();
  }

  private static List<String> sorted(List<String> ids) {
    return ids.stream().sorted().toList();
  }

  private static boolean sameSetUp(GradedPass pass, Clue clue) {
    return pass.setUp().name().equals(clue.pass().setUp().name());
  }

  private static boolean isLone(GradedPass pass, Side board) {
    return pass.setUp().boards().equals(Set.of(board)) && !pass.setUp().interposer();
  }

  private static int elements(GradedPass pass) {
    return pass.setUp().boards().size()
        + pass.setUp().joints().size()
        + (pass.setUp().interposer() ? 1 : 0);
  }
}
