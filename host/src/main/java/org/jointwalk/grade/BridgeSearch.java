package org.jointwalk.grade;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.job.PairEstimate;
import org.jointwalk.job.Question;
import org.jointwalk.job.Question.Need;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Role;

/**
 * Asks for the readings that clear or convict pairs of nets. Two positions are cleared when any
 * reading between their nets, in a seating in which both had a path, found nothing. A join that a
 * group reading finds is looked for by halving the groups; what was found is kept on one side from
 * then on, so that every net is parted from every other at last (adaptive group testing, Chen and
 * Hwang 1989, from memory). Made anew for each look at the estimates.
 */
final class BridgeSearch {

  /** More places than this between two nets are not measured one by one. */
  private static final int MOST_PLACES = 24;

  /** Up to this many suspects are read one by one, which takes one scan instead of many. */
  private static final int FEW_SUSPECTS = 8;

  /** No load of a net to ground is less than this, in ohm (common practice, no source). */
  private static final double LEAST_LOAD = 10;

  private final Assembly assembly;
  private final Ring ring;
  private final Knowledge knowledge;
  private final Separation separation;

  BridgeSearch(Assembly assembly, Ring ring, Knowledge knowledge, Separation separation) {
    this.assembly = assembly;
    this.ring = ring;
    this.knowledge = knowledge;
    this.separation = separation;
  }

  /**
   * Pairs of neighbours, and rails against ground, that no reading has cleared or convicted yet.
   */
  List<Question> open(int seating) {
    List<Question> questions = new ArrayList<>();
    Set<Set<Object>> mine = new LinkedHashSet<>();
    for (Ring.Neighbours pair : ring.neighbours()) {
      ask(pair.a(), pair.b(), seating, mine, questions);
    }
    for (Map.Entry<Contact, Contact> rail : railsAgainstGround(seating).entrySet()) {
      ask(rail.getKey(), rail.getValue(), seating, mine, questions);
    }
    return questions;
  }

  private void ask(
      Contact a, Contact b, int seating, Set<Set<Object>> mine, List<Question> questions) {
    if (assembly.home(a).equals(assembly.home(b))) {
      return;
    }
    ends(a, seating)
        .forEach(
            (nodeA, left) ->
                ends(b, seating)
                    .forEach(
                        (nodeB, right) -> {
                          if (!separation.asked(nodeA, nodeB)
                              && !separation.parted(nodeA, nodeB)
                              && mine.add(Set.of(nodeA, nodeB))) {
                            questions.add(new Question(Need.ISOLATION, List.of(left, right)));
                          }
                        }));
  }

  /**
   * What solder at a contact can join, each with a contact that reaches it in a seating: its net,
   * and where its own path is open, so that nobody knows on which side of the gap solder would lie,
   * the open pad as well.
   */
  private Map<Object, Contact> ends(Contact contact, int seating) {
    Map<Object, Contact> ends = new LinkedHashMap<>();
    if (isUsable(contact, seating)) {
      ends.put(knowledge.meets(contact), contact);
    }
    if (knowledge.released(contact, seating)) {
      knowledge.conducting(assembly.home(contact), seating).stream()
          .findFirst()
          .ifPresent(other -> ends.putIfAbsent(assembly.home(contact), other));
    }
    return ends;
  }

  /**
   * The contact through which a contact's net is reached in a seating: itself when it conducts or
   * stands for nobody else, or another of its net that conducts.
   */
  private Optional<Contact> standIn(Contact contact, int seating) {
    if (isUsable(contact, seating)) {
      return Optional.of(contact);
    }
    if (knowledge.meets(contact).equals(contact) || !knowledge.released(contact, seating)) {
      return Optional.empty();
    }
    return knowledge.conducting(assembly.home(contact), seating).stream().findFirst();
  }

  /**
   * Whether a contact itself can be read against another net in a seating. One that never showed a
   * path, or that cannot be read by itself, may be tried where the plate sat well.
   */
  private boolean isUsable(Contact contact, int seating) {
    if (!knowledge.released(contact, seating)) {
      return false;
    }
    if (knowledge.conducts(contact, seating)) {
      return true;
    }
    boolean own = knowledge.meets(contact).equals(contact);
    boolean tried = knowledge.path(contact, seating).isPresent() || ring.way(contact).isEmpty();
    return own && tried && !knowledge.poor(seating);
  }

  private Map<Contact, Contact> railsAgainstGround(int seating) {
    Map<Contact, Contact> pairs = new LinkedHashMap<>();
    Set<NetId> seen = new LinkedHashSet<>();
    for (Contact contact : knowledge.read(seating)) {
      Optional<Net> net = assembly.net(contact).filter(n -> n.role() == Role.RAIL);
      if (net.isPresent() && knowledge.conducts(contact, seating) && seen.add(net.get().id())) {
        ground(net.get(), seating).ifPresent(ground -> pairs.put(contact, ground));
      }
    }
    return pairs;
  }

  private Optional<Contact> ground(Net net, int seating) {
    return knowledge.read(seating).stream()
        .filter(c -> assembly.isGround(c) && knowledge.conducts(c, seating))
        .filter(c -> assembly.net(c).filter(n -> n.id().side() == net.id().side()).isPresent())
        .findFirst();
  }

  /**
   * Places of a found join, its nets against ground, and neighbours that a joined group leaves
   * under suspicion when they are few; then half of a group whose join has not been found; then
   * every joined group once more with the joined nets on one side, which clears the others or shows
   * another join; and what is still suspected then, one by one.
   */
  List<Question> localise(int seating) {
    List<Question> questions = places(seating);
    questions.addAll(aroundGround(seating));
    List<Question> suspects = suspects(seating);
    if (suspects.size() <= FEW_SUSPECTS) {
      questions.addAll(suspects);
    }
    if (questions.isEmpty()) {
      questions = halve(seating);
    }
    if (questions.isEmpty()) {
      questions = again(seating);
    }
    return questions.isEmpty() ? suspects : questions;
  }

  private List<Question> places(int seating) {
    List<Question> questions = new ArrayList<>();
    Map<Set<Object>, Integer> places = new LinkedHashMap<>();
    for (Ring.Neighbours pair : ring.neighbours()) {
      Object a = knowledge.meets(pair.a());
      Object b = knowledge.meets(pair.b());
      if (!a.equals(b)
          && separation.isJoined(a, b)
          && places.merge(Set.of(a, b), 1, Integer::sum) <= MOST_PLACES
          && !separation.readTogether(pair.a(), pair.b(), seating)
          && isPlace(pair.a(), seating)
          && isPlace(pair.b(), seating)) {
        questions.add(new Question(Need.LOCALISE, List.of(pair.a(), pair.b())));
      }
    }
    return questions;
  }

  /**
   * Nets that more than metal joins, each against ground: of two nets one of which is shorted to
   * ground the pair reads like the other's own load.
   */
  private List<Question> aroundGround(int seating) {
    Map<Set<Object>, Question> questions = new LinkedHashMap<>();
    for (PairEstimate pair : separation.joined().values()) {
      if (separation.ohms(pair).value() < LEAST_LOAD) {
        continue;
      }
      for (Contact end : List.of(pair.step().a(), pair.step().b())) {
        Object node = knowledge.meets(end);
        Optional<Net> net = assembly.net(end).filter(n -> n.role() != Role.GROUND);
        Optional<Contact> left = standIn(end, seating);
        Optional<Contact> ground = net.flatMap(n -> ground(n, seating));
        if (left.isPresent() && ground.isPresent() && !node.equals(end)) {
          Object other = knowledge.meets(ground.get());
          if (!separation.asked(node, other)) {
            questions.putIfAbsent(
                Set.of(node, other),
                new Question(Need.LOCALISE, List.of(left.get(), ground.get())));
          }
        }
      }
    }
    return List.copyOf(questions.values());
  }

  /**
   * Whether a join may be read at a contact. Metal of the interposer need not be proven for that: a
   * probe that has not landed there finds nothing, which takes nothing back.
   */
  private boolean isPlace(Contact contact, int seating) {
    return isUsable(contact, seating)
        || (ring.way(contact).filter(w -> w == Ring.Way.REPRESENTS).isPresent()
            && knowledge.released(contact, seating));
  }

  /** Neighbours that no reading has cleared, while some group reading found a join. */
  private List<Question> suspects(int seating) {
    List<Question> questions = new ArrayList<>();
    if (separation.groups().stream().noneMatch(Separation.Groups::joins)) {
      return questions;
    }
    Set<Set<Object>> mine = new LinkedHashSet<>();
    for (Ring.Neighbours pair : ring.neighbours()) {
      // Of many neighbours of two nets the first may be metal that nothing proves.
      ends(pair.a(), seating)
          .forEach(
              (a, left) ->
                  ends(pair.b(), seating)
                      .forEach(
                          (b, right) -> {
                            if (!a.equals(b)
                                && separation.parted(a, b)
                                && isSuspected(a, b)
                                && mine.add(Set.of(a, b))) {
                              questions.add(new Question(Need.LOCALISE, List.of(left, right)));
                            }
                          }));
    }
    return questions;
  }

  /** Whether nothing has cleared two nodes of each other. */
  private boolean isSuspected(Object a, Object b) {
    return !separation.asked(a, b) && !separation.clearedByGroup(a, b);
  }

  /**
   * One half of the smallest group reading of this seating whose join has not been found. A half
   * that was read says no more, such as one that shows a join that is known.
   */
  private List<Question> halve(int seating) {
    Set<Set<Set<Object>>> read = sidesRead();
    return separation.unexplained().stream()
        .filter(g -> g.seating() == seating)
        .map(this::suspects)
        .filter(s -> !s.high().isEmpty())
        .sorted(Comparator.comparingInt(s -> s.high().size() * s.low().size()))
        .flatMap(s -> halves(s).stream())
        .filter(half -> !read.contains(half.sides()))
        .findFirst()
        .map(BridgeSearch::question)
        .map(List::of)
        .orElse(List.of());
  }

  private Set<Set<Set<Object>>> sidesRead() {
    Set<Set<Set<Object>>> read = new LinkedHashSet<>();
    separation.groups().forEach(g -> read.add(g.sides()));
    return read;
  }

  /** What is left of a group reading without the nodes that are cleared of all others. */
  private Separation.Groups suspects(Separation.Groups group) {
    Map<Object, Contact> high = new LinkedHashMap<>();
    Map<Object, Contact> low = new LinkedHashMap<>();
    group
        .high()
        .forEach(
            (a, contact) ->
                group
                    .low()
                    .forEach(
                        (b, other) -> {
                          if (isSuspected(a, b)) {
                            high.put(a, contact);
                            low.put(b, other);
                          }
                        }));
    return new Separation.Groups(group.seating(), high, low, true, false);
  }

  /** The longer side in two, each with all of the other; a pair is its own half. */
  private static List<Separation.Groups> halves(Separation.Groups suspects) {
    boolean high = suspects.high().size() >= suspects.low().size();
    List<Map.Entry<Object, Contact>> side =
        List.copyOf((high ? suspects.high() : suspects.low()).entrySet());
    if (side.size() == 1) {
      return List.of(suspects);
    }
    List<Separation.Groups> halves = new ArrayList<>();
    int middle = side.size() / 2;
    for (List<Map.Entry<Object, Contact>> some :
        List.of(side.subList(0, middle), side.subList(middle, side.size()))) {
      Map<Object, Contact> half = new LinkedHashMap<>();
      some.forEach(e -> half.put(e.getKey(), e.getValue()));
      halves.add(
          new Separation.Groups(
              suspects.seating(),
              high ? half : suspects.high(),
              high ? suspects.low() : half,
              true,
              false));
    }
    return halves;
  }

  private static Question question(Separation.Groups groups) {
    List<Contact> high = List.copyOf(groups.high().values());
    List<Contact> low = List.copyOf(groups.low().values());
    return high.size() == 1 && low.size() == 1
        ? new Question(Need.LOCALISE, List.of(high.get(0), low.get(0)))
        : new Question(Need.LOCALISE, high, low);
  }

  /** The joined groups of this seating with all that is joined on one side, as far as not read. */
  private List<Question> again(int seating) {
    Set<Set<Set<Object>>> read = sidesRead();
    List<Question> questions = new ArrayList<>();
    for (Separation.Groups group : separation.widest()) {
      if (group.seating() == seating && group.joins()) {
        Separation.Groups together = separation.together(group);
        if (!together.high().isEmpty() && !together.low().isEmpty() && read.add(together.sides())) {
          questions.add(question(together));
        }
      }
    }
    return questions;
  }
}
