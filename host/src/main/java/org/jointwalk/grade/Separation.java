package org.jointwalk.grade;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.PairEstimate;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;

/**
 * What the readings between nets say: which two were read as a pair, which of those are joined, and
 * which groups were read against which. A node is a net, or a contact whose path is open and which
 * therefore is a net of its own in that seating. Made anew for each look at the estimates.
 */
final class Separation {

  /** With a board present nothing above this is called a bridge, in ohm (common practice). */
  private static final double BOARD_OHMS = 1e4;

  /** The bare interposer holds no parts, so that residue can be asked for. */
  private static final double BARE_OHMS = 1e6;

  /** Loads of good boards differ by about this fraction (an assumption until learned). */
  private static final double LOAD_SPREAD = 0.1;

  /** So many times the threshold conducts like metal. */
  private static final double HARD = 100;

  private static final double SURE = 5;

  /** A load of less than this part of the threshold cannot be taken for a join. */
  private static final double UNLIKE = 4;

  private final Assembly assembly;
  private final Accuracy accuracy;
  private final Knowledge knowledge;
  private final Set<Set<Object>> asked = new LinkedHashSet<>();
  private final Map<Set<Object>, PairEstimate> joined = new LinkedHashMap<>();
  private final Map<Integer, Set<Set<Contact>>> read = new LinkedHashMap<>();
  private final Map<Integer, Set<Set<Contact>>> isolated = new LinkedHashMap<>();
  private final List<Groups> groups = new ArrayList<>();

  /**
   * A reading between two groups.
   *
   * @param high nodes on the high side, with a contact for each
   * @param low the same for the low side
   * @param joins whether something joins the two sides
   * @param explained whether joins that are known, with the boards' loads, account for that
   */
  record Groups(
      int seating,
      Map<Object, Contact> high,
      Map<Object, Contact> low,
      boolean joins,
      boolean explained) {

    boolean parts(Object a, Object b) {
      return (high.containsKey(a) && low.containsKey(b))
          || (high.containsKey(b) && low.containsKey(a));
    }

    /** The nodes of both sides, whichever is high. */
    Set<Set<Object>> sides() {
      return Set.of(Set.copyOf(high.keySet()), Set.copyOf(low.keySet()));
    }

    private boolean isWithin(Groups other) {
      return !sides().equals(other.sides())
          && ((isWithin(high, other.high) && isWithin(low, other.low))
              || (isWithin(high, other.low) && isWithin(low, other.high)));
    }

    private static boolean isWithin(Map<Object, Contact> some, Map<Object, Contact> all) {
      return all.keySet().containsAll(some.keySet());
    }
  }

  Separation(
      Assembly assembly, Capabilities capabilities, Knowledge knowledge, Estimates estimates) {
    this.assembly = assembly;
    this.accuracy = new Accuracy(capabilities);
    this.knowledge = knowledge;
    for (PairEstimate pair : estimates.pairs()) {
      if (pair.step().isPair()) {
        addPair(pair);
      } else {
        groups.add(
            new Groups(
                pair.seating(),
                nodes(pair.step().high(), pair.seating()),
                nodes(pair.step().low(), pair.seating()),
                conducts(pair.siemens()),
                isExplained(pair)));
      }
    }
  }

  private void addPair(PairEstimate pair) {
    Contact a = pair.step().a();
    Contact b = pair.step().b();
    Set<Set<Contact>> seen =
        pair.step().kind() == Kind.ISOLATION
            ? isolated.computeIfAbsent(pair.seating(), k -> new LinkedHashSet<>())
            : read.computeIfAbsent(pair.seating(), k -> new LinkedHashSet<>());
    if (!seen.add(Set.of(a, b))) {
      // Twice is enough even where no resistance could be read.
      read.computeIfAbsent(pair.seating(), k -> new LinkedHashSet<>()).add(Set.of(a, b));
    }
    Object nodeA = knowledge.meets(a, pair.seating());
    Object nodeB = knowledge.meets(b, pair.seating());
    if (nodeA.equals(nodeB)) {
      return;
    }
    Set<Object> nodes = Set.of(nodeA, nodeB);
    asked.add(nodes);
    if (isJoined(pair)) {
      joined.merge(nodes, pair, Separation::better);
    }
  }

  private Map<Object, Contact> nodes(List<Contact> side, int seating) {
    Map<Object, Contact> nodes = new LinkedHashMap<>();
    side.forEach(c -> nodes.putIfAbsent(knowledge.meets(c, seating), c));
    return nodes;
  }

  private double thresholdSiemens() {
    return 1 / (assembly.setUp().bare() ? BARE_OHMS : BOARD_OHMS);
  }

  /** Whether known joins conduct as much as a group reading found, or half of it at least. */
  private static boolean isExplained(PairEstimate group) {
    return surelySiemens(group.siemens()) <= 2 * group.expectedSiemens();
  }

  /**
   * What conducts at least. A dead short leaves hardly any voltage, so that its conductance is
   * known badly; that its resistance is small is not.
   */
  private static double surelySiemens(Estimate g) {
    double byConductance = g.value() - SURE * g.u();
    if (g.value() <= 0) {
      return byConductance;
    }
    double ohms = 1 / g.value();
    return Math.max(byConductance, 1 / (ohms + SURE * ohms * ohms * g.u()));
  }

  private boolean conducts(Estimate siemens) {
    return siemens.value() - SURE * siemens.u() > thresholdSiemens() || isHard(siemens);
  }

  private boolean isHard(Estimate siemens) {
    return siemens.value() > HARD * thresholdSiemens()
        && surelySiemens(siemens) > thresholdSiemens();
  }

  /** What was read as a resistance tells it best; of two such the smaller is nearer the place. */
  private static PairEstimate better(PairEstimate p, PairEstimate q) {
    boolean pWell = p.step().kind() != Kind.ISOLATION;
    boolean qWell = q.step().kind() != Kind.ISOLATION;
    if (pWell != qWell) {
      return pWell ? p : q;
    }
    return p.siemens().value() >= q.siemens().value() ? p : q;
  }

  /** Whether a reading shows more conductance than a good board can have there. */
  private boolean isJoined(PairEstimate pair) {
    Estimate g = pair.siemens();
    if (g.value() <= 0) {
      return false;
    }
    if (pair.expectedSiemens() < thresholdSiemens() / UNLIKE) {
      return conducts(g);
    }
    Estimate ohms = ohms(pair);
    double usual = 1 / pair.expectedSiemens();
    return ohms.value() + SURE * ohms.u() < 1 / thresholdSiemens()
        && ohms.value() < usual - SURE * Math.hypot(LOAD_SPREAD * usual, ohms.u());
  }

  /** What lies between the pads of a pair. */
  Estimate ohms(PairEstimate pair) {
    return accuracy.betweenPads(pair.siemens());
  }

  /** Whether two nodes were read as a pair in any seating. */
  boolean asked(Object a, Object b) {
    return asked.contains(Set.of(a, b));
  }

  /** Whether two contacts were read against each other in a seating. */
  boolean readTogether(Contact a, Contact b, int seating) {
    return read.getOrDefault(seating, Set.of()).contains(Set.of(a, b));
  }

  /** The joined pairs of nodes, each with the reading that found the least resistance. */
  Map<Set<Object>, PairEstimate> joined() {
    return Collections.unmodifiableMap(joined);
  }

  boolean isJoined(Object a, Object b) {
    return joined.containsKey(Set.of(a, b));
  }

  /** Every reading between groups, in order. */
  List<Groups> groups() {
    return Collections.unmodifiableList(groups);
  }

  /** Whether any group reading parted two nodes, whatever it found. */
  boolean parted(Object a, Object b) {
    return groups.stream().anyMatch(g -> g.parts(a, b));
  }

  /** Whether a group reading parted two nodes and found nothing between its sides. */
  boolean clearedByGroup(Object a, Object b) {
    return groups.stream().anyMatch(g -> !g.joins() && g.parts(a, b));
  }

  /** The group readings that found a join of which no two nodes have been named yet. */
  List<Groups> unexplained() {
    return groups.stream()
        .filter(g -> g.joins() && !g.explained())
        .filter(g -> joined.keySet().stream().noneMatch(nodes -> partsAll(g, nodes)))
        .toList();
  }

  private static boolean partsAll(Groups group, Set<Object> nodes) {
    List<Object> two = List.copyOf(nodes);
    return group.parts(two.get(0), two.get(1));
  }

  /** The group readings that are no part of another, such as a half of it. */
  List<Groups> widest() {
    return groups.stream().filter(g -> groups.stream().noneMatch(g::isWithin)).toList();
  }

  /**
   * A group reading with every two joined nodes on one side, that of the first of them, and without
   * those that are joined to what is in no group.
   */
  Groups together(Groups group) {
    Map<Object, Contact> high = new LinkedHashMap<>(group.high());
    Map<Object, Contact> low = new LinkedHashMap<>(group.low());
    List<Object> order = new ArrayList<>(group.high().keySet());
    order.addAll(group.low().keySet());
    Set<Object> placed = new LinkedHashSet<>();
    for (Object first : order) {
      if (placed.contains(first)) {
        continue;
      }
      Set<Object> together = joinedTo(first);
      placed.addAll(together);
      if (!order.containsAll(together)) {
        high.keySet().removeAll(together);
        low.keySet().removeAll(together);
      } else if (high.containsKey(first)) {
        move(together, low, high);
      } else {
        move(together, high, low);
      }
    }
    return new Groups(group.seating(), high, low, false, false);
  }

  private static void move(Set<Object> nodes, Map<Object, Contact> from, Map<Object, Contact> to) {
    for (Object node : nodes) {
      Contact contact = from.remove(node);
      if (contact != null) {
        to.put(node, contact);
      }
    }
  }

  /** A node with all that is joined to it, directly or through others. */
  private Set<Object> joinedTo(Object start) {
    Set<Object> reached = new LinkedHashSet<>(Set.of(start));
    List<Object> queue = new ArrayList<>(reached);
    for (int i = 0; i < queue.size(); i++) {
      for (Set<Object> nodes : joined.keySet()) {
        if (nodes.contains(queue.get(i))) {
          nodes.stream().filter(reached::add).forEach(queue::add);
        }
      }
    }
    return reached;
  }
}
