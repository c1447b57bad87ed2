package org.jointwalk.campaign;

import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jointwalk.files.Names;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.simulator.Truth;
import org.jointwalk.simulator.Visibility.Sight;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Side;

/**
 * Compares what the findings say of joined nets and of boards with what was put in. Nets that
 * several bridges join count as joined, in truth and in findings, since no reading at a pad tells
 * through which of them the current went. Immutable but for the score it fills.
 */
final class JoinJudge {

  static final String INVENTED = "invented bridges";
  static final String MISSED = "missed bridges";
  static final String MISSED_FAINT = "missed faint bridges";
  static final String RESIDUE = "residue above the isolation threshold that was not called";
  static final String MISSED_SHORTS = "missed shorts of a board";
  static final String MISSED_NETS = "missed abnormal or dead nets of a board";

  static final String INVENTED_BOARD = "findings of a board on nets that no fault touches";

  private static final String BRIDGE = "bridge";
  static final String BEHIND_A_GAP =
      "bridges that no probe reaches at one end and that were missed";
  private static final String RESIDUE_KIND = "residue";
  private static final String SHORT = "short of a board";
  private static final String ABNORMAL_NET = "abnormal net";
  private static final String DEAD_NET = "dead net";

  /** The kinds of fault that are judged here. */
  static final List<String> KINDS = List.of(BRIDGE, RESIDUE_KIND, SHORT, ABNORMAL_NET, DEAD_NET);

  /**
   * What counts as metal, in ohm: half the threshold that the isolation test is laid out for, 10
   * kilohm with a board in the fixture and 1 megohm without.
   */
  private static final double METAL = 5e3;

  private static final double METAL_WHEN_BARE = 500e3;

  private final Drawn drawn;
  private final List<Truth> seatings;
  private final Score score;

  JoinJudge(Drawn drawn, List<Truth> seatings, Score score) {
    this.drawn = drawn;
    this.seatings = seatings;
    this.score = score;
  }

  void judge(Findings findings) {
    for (BridgeFinding bridge : findings.bridges()) {
      boolean joined =
          seatings.stream()
              .anyMatch(
                  t ->
                      new Copper(t.assembly(), t.defects())
                          .withJoins(t.defects())
                          .joinedTouched(bridge.a(), bridge.b()));
      score.mustNot(INVENTED, !joined, words(bridge));
    }
    Set<NetId> touched = touchedNets();
    for (BoardFinding board : findings.boards()) {
      score.tally().add(INVENTED_BOARD, !touched.contains(board.net()));
    }
    Copper said = said(findings);
    Truth first = seatings.get(0);
    first
        .defects()
        .conditions()
        .forEach(
            (component, condition) -> {
              if (Copper.isJoin(component, condition)) {
                judgeJoin(component, condition, said, findings);
              } else if (component instanceof Component.NetOf netOf) {
                judgeNet(netOf, condition, findings);
              }
            });
  }

  private void judgeJoin(Component component, Condition condition, Copper said, Findings findings) {
    Sight sight = sight(component, condition);
    String fixture = drawn.stand().fixture().name();
    boolean silent = !said.joins(component, condition);
    if (!(condition instanceof Condition.Bridged bridged)) {
      score.tally().add(PathJudge.excluded(SHORT, fixture), sight != Sight.SEEN);
      if (sight == Sight.SEEN) {
        score.tally().add(MISSED_SHORTS, silent);
      }
      return;
    }
    silent &= !namesNets((Component.Bridge) component, findings);
    silent &= !pointsAt((Component.Bridge) component, findings);
    boolean metal =
        bridged.ohms().value() <= (drawn.stand().setUp().bare() ? METAL_WHEN_BARE : METAL);
    String kind = metal ? BRIDGE : RESIDUE_KIND;
    score.tally().add(PathJudge.excluded(kind, fixture), sight != Sight.SEEN);
    if (sight == Sight.FAINT && metal) {
      score.tally().add(MISSED_FAINT, silent);
    } else if (sight == Sight.SEEN && metal && isBehindAGap((Component.Bridge) component)) {
      score.tally().add(BEHIND_A_GAP, silent);
    } else if (sight == Sight.SEEN && metal) {
      score.mustNot(MISSED, silent, Names.of(component) + " " + condition + "; " + drawn.words());
    } else if (sight == Sight.SEEN) {
      score.tally().add(RESIDUE, silent);
    }
  }

  /** Whether both pads are graded bridged, be it to others: whoever looks there sees the solder. */
  private static boolean pointsAt(Component.Bridge bridge, Findings findings) {
    return findings.graded(Grade.BRIDGED).stream()
        .map(Finding::position)
        .collect(Collectors.toSet())
        .containsAll(Set.of(bridge.a(), bridge.b()));
  }

  /**
   * Whether no probe reaches one end of a bridge: the path or the probe there is broken, and its
   * net has no other pad. Such a bridge shows, if at all, by what it does to the loads of others.
   */
  private boolean isBehindAGap(Component.Bridge bridge) {
    PadMap map = drawn.stand().map();
    return drawn.stand().side().stream()
        .anyMatch(
            side ->
                List.of(bridge.a(), bridge.b()).stream()
                    .filter(this::isCut)
                    .anyMatch(
                        id ->
                            map.positions().values().stream()
                                .noneMatch(
                                    p ->
                                        !p.id().equals(id)
                                            && p.net(side).equals(map.position(id).net(side)))));
  }

  /** Whether the path at a position, or its probe, lets no current through in some seating. */
  private boolean isCut(String position) {
    Predicate<Condition> cuts = c -> c instanceof Condition.Open || c instanceof Condition.TwoState;
    boolean path =
        seatings.stream()
            .anyMatch(
                t ->
                    t.assembly().present(position).stream()
                        .anyMatch(c -> t.defects().of(c).filter(cuts).isPresent()));
    return path
        || List.of(Plate.values()).stream()
            .map(plate -> new Component.Probe(new Contact.Pad(plate, position)))
            .anyMatch(probe -> drawn.defects().of(probe).filter(cuts).isPresent());
  }

  /** Whether a finding of a board names the nets that a bridge lies between. */
  private boolean namesNets(Component.Bridge bridge, Findings findings) {
    PadMap map = drawn.stand().map();
    return drawn.stand().side().stream()
        .anyMatch(
            side -> {
              NetId a = map.position(bridge.a()).net(side);
              NetId b = map.position(bridge.b()).net(side);
              return findings.boards().stream()
                  .anyMatch(f -> named(f).contains(a) && named(f).contains(b));
            });
  }

  /** The nets that a finding of joined nets names. */
  private Set<NetId> named(BoardFinding board) {
    if (board.fault() != BoardFinding.Fault.SHORTED) {
      return Set.of();
    }
    Set<String> words = new HashSet<>(List.of(board.reason().split("\\W+")));
    words.add(board.net().name());
    return drawn.stand().map().nets().keySet().stream()
        .filter(id -> id.side() == board.net().side() && words.contains(id.name()))
        .collect(Collectors.toSet());
  }

  /** Joins that close the same ring hide each other: it is asked whether this one alone shows. */
  private Sight sight(Component component, Condition condition) {
    Truth truth = seatings.get(0);
    Copper others = new Copper(truth.assembly(), truth.defects());
    if (others.withJoins(truth.defects(), component).joins(component, condition)) {
      for (Map.Entry<Component, Condition> other : truth.defects().conditions().entrySet()) {
        if (!other.getKey().equals(component) && Copper.isJoin(other.getKey(), other.getValue())) {
          truth = truth.without(other.getKey());
        }
      }
    }
    return truth.visibility(component).sight();
  }

  /** What the findings join, on top of the conductors that are really there. */
  private Copper said(Findings findings) {
    Truth first = seatings.get(0);
    Copper said = new Copper(first.assembly(), first.defects());
    for (BridgeFinding bridge : findings.bridges()) {
      said.joinTouched(bridge.a(), bridge.b());
    }
    for (BoardFinding board : findings.boards()) {
      named(board).forEach(id -> said.join(Node.OnBoard.of(board.net()), Node.OnBoard.of(id)));
    }
    return said;
  }

  /** Nets with a fault of their own, or with one that reaches them at a position. */
  private Set<NetId> touchedNets() {
    Set<NetId> touched = new HashSet<>();
    PadMap map = drawn.stand().map();
    drawn
        .defects()
        .conditions()
        .forEach(
            (component, condition) -> {
              if (component instanceof Component.NetOf netOf) {
                touched.add(netOf.net());
                if (condition instanceof Condition.Shorted shorted) {
                  touched.add(new NetId(netOf.net().side(), shorted.to()));
                }
              }
              for (Side side : Side.values()) {
                positions(component).forEach(id -> touched.add(map.position(id).net(side)));
              }
            });
    return touched;
  }

  private static List<String> positions(Component component) {
    if (component instanceof Component.Bridge bridge) {
      return List.of(bridge.a(), bridge.b());
    }
    if (component instanceof Component.Joint joint) {
      return List.of(joint.position());
    }
    if (component instanceof Component.Pad pad) {
      return List.of(pad.position());
    }
    if (component instanceof Component.Via via) {
      return List.of(via.position());
    }
    return component instanceof Component.Probe probe && probe.contact() instanceof Contact.Pad pad
        ? List.of(pad.position())
        : List.of();
  }

  private void judgeNet(Component.NetOf netOf, Condition condition, Findings findings) {
    Sight sight = seatings.get(0).visibility(netOf).sight();
    String kind = condition instanceof Condition.Open ? DEAD_NET : ABNORMAL_NET;
    score
        .tally()
        .add(PathJudge.excluded(kind, drawn.stand().fixture().name()), sight != Sight.SEEN);
    if (sight == Sight.SEEN) {
      boolean flagged =
          findings.boards().stream().anyMatch(b -> b.net().equals(netOf.net()))
              || findings.positions().stream()
                  .filter(f -> f.grade().isFault())
                  .map(Finding::position)
                  .anyMatch(id -> isOn(id, netOf.net()));
      score.tally().add(MISSED_NETS, !flagged);
    }
  }

  private boolean isOn(String position, NetId net) {
    return drawn.stand().map().position(position).net(net.side()).equals(net);
  }

  private String words(BridgeFinding bridge) {
    return bridge + "; " + drawn.words();
  }
}
