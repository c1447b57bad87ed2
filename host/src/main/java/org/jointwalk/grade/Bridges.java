package org.jointwalk.grade;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.PairEstimate;
import org.jointwalk.job.Question;
import org.jointwalk.job.Question.Need;
import org.jointwalk.quantity.Contribution;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Role;

/**
 * Which nets that should be apart are joined, and where on the ring. Two positions are cleared when
 * any reading between their nets, in a seating in which both had a path, found nothing. Not
 * thread-safe; made anew for each look at the estimates.
 */
final class Bridges {

  /** With a board present nothing above this is called a bridge, in ohm (common practice). */
  private static final double BOARD_OHMS = 1e4;

  /** The bare interposer holds no parts, so that residue can be asked for. */
  private static final double BARE_OHMS = 1e6;

  /** Loads of good boards differ by about this fraction (an assumption until learned). */
  private static final double LOAD_SPREAD = 0.1;

  private static final double SURE = 5;

  /** More places than this between two nets are not measured one by one. */
  private static final int MOST_PLACES = 24;

  private record Key(Object a, Object b) {}

  private final Assembly assembly;
  private final Capabilities capabilities;
  private final Ring ring;
  private final Knowledge knowledge;
  private final List<PairEstimate> pairs;
  private final Set<Key> asked = new LinkedHashSet<>();
  private final Map<Key, PairEstimate> joined = new LinkedHashMap<>();
  private final List<PairEstimate> groups = new ArrayList<>();

  Bridges(
      Assembly assembly,
      Capabilities capabilities,
      Ring ring,
      Knowledge knowledge,
      Estimates estimates) {
    this.assembly = assembly;
    this.capabilities = capabilities;
    this.ring = ring;
    this.knowledge = knowledge;
    this.pairs = estimates.pairs();
    for (PairEstimate pair : pairs) {
      if (pair.step().isPair()) {
        Key key = key(pair.step().a(), pair.step().b(), pair.seating());
        asked.add(key);
        asked.add(new Key(key.b(), key.a()));
        if (isJoined(pair)) {
          joined.merge(key, pair, Bridges::better);
        }
      } else {
        groups.add(pair);
      }
    }
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

  private Key key(Contact a, Contact b, int seating) {
    return ordered(knowledge.meets(a, seating), knowledge.meets(b, seating));
  }

  private static Key ordered(Object a, Object b) {
    return a.toString().compareTo(b.toString()) <= 0 ? new Key(a, b) : new Key(b, a);
  }

  private double thresholdSiemens() {
    return 1 / (assembly.setUp().bare() ? BARE_OHMS : BOARD_OHMS);
  }

  /** Whether a reading shows more conductance than a good board can have there. */
  boolean isJoined(PairEstimate pair) {
    Estimate g = pair.siemens();
    if (g.value() <= 0) {
      return false;
    }
    if (pair.expectedSiemens() < thresholdSiemens() / 4) {
      // In ohm, not in siemens: a dead short leaves no voltage, so that its conductance is known
      // badly and its resistance well.
      double ohms = 1 / g.value();
      return ohms + SURE * ohms * ohms * g.u() < 1 / thresholdSiemens();
    }
    Estimate ohms = ohms(pair);
    double usual = 1 / pair.expectedSiemens();
    return ohms.value() < usual - SURE * Math.hypot(LOAD_SPREAD * usual, ohms.u());
  }

  /** What lies between two contacts: switches and contacts taken off at their typical values. */
  private Estimate ohms(PairEstimate pair) {
    double g = pair.siemens().value();
    double path =
        capabilities.kelvin().readsPath()
            ? capabilities.path().highOhms().value() + capabilities.path().lowOhms().value()
            : 0;
    double contacts =
        capabilities.kelvin().readsContact() ? 2 * capabilities.probes().typical().value() : 0;
    List<Contribution> budget = new ArrayList<>();
    budget.add(Contribution.known("reading", pair.siemens().u() / (g * g)));
    if (capabilities.kelvin().readsPath()) {
      budget.add(
          Contribution.known(
              "two switches after zero", Math.sqrt(2) * capabilities.path().sd().value()));
    }
    if (capabilities.kelvin().readsContact()) {
      budget.add(
          Contribution.known(
              "two probe contacts of this seating",
              Math.sqrt(2) * capabilities.probes().sd().value()));
    }
    return Estimate.of(Math.max(0, 1 / g - path - contacts), budget);
  }

  /**
   * Pairs of neighbours, and rails against ground, that no reading has cleared or convicted yet.
   */
  List<Question> open(int seating) {
    List<Question> questions = new ArrayList<>();
    Set<Key> mine = new LinkedHashSet<>();
    for (Contact[] pair : ring.neighbours()) {
      ask(pair[0], pair[1], seating, mine, questions);
    }
    for (Contact[] pair : railsAgainstGround(seating)) {
      ask(pair[0], pair[1], seating, mine, questions);
    }
    return questions;
  }

  private void ask(Contact a, Contact b, int seating, Set<Key> mine, List<Question> questions) {
    Object meetsA = knowledge.meets(a);
    Object meetsB = knowledge.meets(b);
    if (assembly.home(a).equals(assembly.home(b))) {
      return;
    }
    Key key = ordered(meetsA, meetsB);
    if (asked.contains(key) || clearedOrSuspect(meetsA, meetsB) || !mine.add(key)) {
      return;
    }
    Optional<Contact> left = standIn(a, seating);
    Optional<Contact> right = standIn(b, seating);
    if (left.isPresent() && right.isPresent()) {
      questions.add(new Question(Need.ISOLATION, List.of(left.get(), right.get())));
    }
  }

  /**
   * The contact through which a contact's net is reached in a seating: itself when it conducts or
   * is open for good, else another of its net that conducts.
   */
  private Optional<Contact> standIn(Contact contact, int seating) {
    boolean first = seating == knowledge.firstSeating();
    if (knowledge.conducts(contact, seating)) {
      return Optional.of(contact);
    }
    if (knowledge.meets(contact).equals(contact)) {
      return first || knowledge.read(seating).contains(contact)
          ? Optional.of(contact)
          : Optional.empty();
    }
    Node home = assembly.home(contact);
    return knowledge.read(seating).stream()
        .filter(c -> assembly.home(c).equals(home) && knowledge.conducts(c, seating))
        .findFirst();
  }

  private List<Contact[]> railsAgainstGround(int seating) {
    List<Contact[]> pairs = new ArrayList<>();
    Set<NetId> seen = new LinkedHashSet<>();
    for (Contact contact : knowledge.read(seating)) {
      Optional<Net> net = assembly.net(contact);
      if (net.isEmpty()
          || net.get().role() != Role.RAIL
          || !knowledge.conducts(contact, seating)
          || !seen.add(net.get().id())) {
        continue;
      }
      knowledge.read(seating).stream()
          .filter(
              c ->
                  assembly.isGround(c)
                      && knowledge.conducts(c, seating)
                      && assembly.net(c).orElseThrow().id().side() == net.get().id().side())
          .findFirst()
          .ifPresent(ground -> pairs.add(new Contact[] {contact, ground}));
    }
    return pairs;
  }

  /** Whether a group reading separated two nodes, whatever it found. */
  private boolean clearedOrSuspect(Object a, Object b) {
    return groups.stream().anyMatch(g -> separates(g, a, b));
  }

  private boolean separates(PairEstimate group, Object a, Object b) {
    return (holds(group.step().high(), a, group.seating())
            && holds(group.step().low(), b, group.seating()))
        || (holds(group.step().high(), b, group.seating())
            && holds(group.step().low(), a, group.seating()));
  }

  private final Map<List<Contact>, Map<Integer, Set<Object>>> sides = new LinkedHashMap<>();

  private boolean holds(List<Contact> side, Object node, int seating) {
    return sides
        .computeIfAbsent(side, k -> new LinkedHashMap<>())
        .computeIfAbsent(
            seating,
            k -> {
              Set<Object> nodes = new LinkedHashSet<>();
              side.forEach(c -> nodes.add(knowledge.meets(c, seating)));
              return nodes;
            })
        .contains(node);
  }

  /**
   * Neighbours that a positive group reading leaves under suspicion, and places of a found join.
   */
  List<Question> localise(int seating) {
    List<Question> questions = new ArrayList<>();
    boolean anyPositive = groups.stream().anyMatch(this::isJoined);
    Map<Key, Integer> places = new LinkedHashMap<>();
    for (Contact[] pair : ring.neighbours()) {
      Key key = ordered(knowledge.meets(pair[0]), knowledge.meets(pair[1]));
      boolean suspect = anyPositive && !asked.contains(key) && suspected(key);
      boolean place =
          joined.containsKey(key)
              && !measuredHere(pair, seating)
              && places.merge(key, 1, Integer::sum) <= MOST_PLACES;
      if ((suspect || place)
          && usable(pair[0], seating)
          && usable(pair[1], seating)
          && !assembly.home(pair[0]).equals(assembly.home(pair[1]))) {
        questions.add(new Question(Need.LOCALISE, List.of(pair[0], pair[1])));
      }
    }
    return questions;
  }

  private boolean usable(Contact contact, int seating) {
    return knowledge.conducts(contact, seating) || knowledge.meets(contact).equals(contact);
  }

  private boolean suspected(Key key) {
    List<PairEstimate> apart = groups.stream().filter(g -> separates(g, key.a(), key.b())).toList();
    return !apart.isEmpty() && apart.stream().allMatch(this::isJoined);
  }

  private boolean measuredHere(Contact[] pair, int seating) {
    return pairs.stream()
        .anyMatch(
            p ->
                p.seating() == seating
                    && p.step().isPair()
                    && p.step().kind() != Kind.ISOLATION
                    && ((p.step().a().equals(pair[0]) && p.step().b().equals(pair[1]))
                        || (p.step().a().equals(pair[1]) && p.step().b().equals(pair[0]))));
  }

  /** The joined neighbours, one pair per two joined nets: the one with the least resistance. */
  List<BridgeFinding> found() {
    List<BridgeFinding> found = new ArrayList<>();
    joined.forEach(
        (key, pair) -> {
          if (!betweenPower(pair)) {
            place(key, pair).ifPresent(found::add);
          }
        });
    return found;
  }

  private Optional<BridgeFinding> place(Key key, PairEstimate best) {
    Contact[] where = null;
    for (Contact[] pair : ring.neighbours()) {
      boolean here = ordered(knowledge.meets(pair[0]), knowledge.meets(pair[1])).equals(key);
      boolean exact =
          (best.step().high().contains(pair[0]) && best.step().low().contains(pair[1]))
              || (best.step().high().contains(pair[1]) && best.step().low().contains(pair[0]));
      if (here && (where == null || exact)) {
        where = pair;
      }
    }
    if (where == null) {
      return Optional.empty();
    }
    String a = ((Contact.Pad) where[0]).position();
    String b = ((Contact.Pad) where[1]).position();
    return Optional.of(
        a.compareTo(b) < 0
            ? new BridgeFinding(a, b, ohms(best))
            : new BridgeFinding(b, a, ohms(best)));
  }

  /** Joined nets that a failed part can join as well as solder: rails and ground. */
  List<BoardFinding> shorted() {
    List<BoardFinding> found = new ArrayList<>();
    joined.forEach(
        (key, pair) -> {
          Optional<Net> a = assembly.net(pair.step().a());
          Optional<Net> b = assembly.net(pair.step().b());
          if (a.isEmpty() || b.isEmpty()) {
            return;
          }
          boolean power = betweenPower(pair);
          if (!power && place(key, pair).isPresent()) {
            return;
          }
          Net net = a.get().role() == Role.GROUND ? b.get() : a.get();
          Net other = net.equals(a.get()) ? b.get() : a.get();
          found.add(
              new BoardFinding(
                  net.id(),
                  BoardFinding.Fault.SHORTED,
                  Words.shorted(net, other, ohms(pair), pair.expectedSiemens(), places(key))));
        });
    return found;
  }

  private List<String> places(Key key) {
    List<String> places = new ArrayList<>();
    for (Contact[] pair : ring.neighbours()) {
      if (ordered(knowledge.meets(pair[0]), knowledge.meets(pair[1])).equals(key)) {
        places.add(((Contact.Pad) pair[0]).position() + "-" + ((Contact.Pad) pair[1]).position());
      }
    }
    return places;
  }

  private boolean betweenPower(PairEstimate pair) {
    return isPower(pair.step().a()) && isPower(pair.step().b());
  }

  private boolean isPower(Contact contact) {
    return assembly
        .net(contact)
        .map(n -> n.role() == Role.RAIL || n.role() == Role.GROUND)
        .orElse(false);
  }
}
