package org.jointwalk.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Question;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;

/**
 * Which pairs of one net are read. The pads of a net fall into triangles of pads that lie side by
 * side, since three readings of a triangle resolve its three paths with three quarters of the
 * variance of one reading, which no other design of as many readings betters; a rest of one or two
 * pads makes the last block a little larger. A pad alone on its net is read by its junction to
 * ground. Immutable.
 */
final class Continuity {

  /** Further partners for a value that would accuse somebody: enough for a second triangle. */
  private static final int SECOND_LOOK = 2;

  /** After so many steps the first is read again. */
  private static final int REFERENCE_EVERY = 100;

  private final Assembly assembly;
  private final Map<Node, List<Contact>> wiredByHome = new LinkedHashMap<>();
  private final Steps steps;
  private final Solve solve;
  private final Set<NetId> suppliesOnly;
  private final double middleX;
  private final double middleY;

  Continuity(Assembly assembly, Set<Contact> wired, Steps steps, Solve solve) {
    this.assembly = assembly;
    for (Contact contact : assembly.contacts()) {
      if (wired.contains(contact)) {
        wiredByHome.computeIfAbsent(assembly.home(contact), k -> new ArrayList<>()).add(contact);
      }
    }
    this.steps = steps;
    this.solve = solve;
    this.suppliesOnly = suppliesOnly(assembly);
    this.middleX =
        assembly.map().positions().values().stream().mapToDouble(Position::xMm).average().orElse(0);
    this.middleY =
        assembly.map().positions().values().stream().mapToDouble(Position::yMm).average().orElse(0);
  }

  /** Nets with a junction that they feed and none that ground feeds. */
  private static Set<NetId> suppliesOnly(Assembly assembly) {
    Set<NetId> feeding = new LinkedHashSet<>();
    Set<NetId> fed = new LinkedHashSet<>();
    for (Load load : assembly.loads()) {
      if (load instanceof Load.Junction) {
        feeding.add(new NetId(load.side(), load.from()));
        fed.add(new NetId(load.side(), load.to()));
      }
    }
    feeding.removeAll(fed);
    return feeding;
  }

  /** The first look at every contact asked for. */
  List<Step> first(List<Question> questions, Proven proven) {
    Map<Node, List<Contact>> groups = new LinkedHashMap<>();
    List<Step> list = new ArrayList<>();
    for (Question question : questions) {
      if (question.contacts().size() == 2) {
        edge(question.contacts().get(0), question.contacts().get(1), list);
        continue;
      }
      for (Contact contact : question.contacts()) {
        groups.computeIfAbsent(assembly.home(contact), k -> new ArrayList<>()).add(contact);
      }
    }
    for (Map.Entry<Node, List<Contact>> group : groups.entrySet()) {
      List<Contact> members = new ArrayList<>(group.getValue());
      // Proven pads and shared metal of the same net help a few lone members to a triangle.
      if (members.size() < 3) {
        helpers(group.getKey(), members, proven).stream()
            .limit(3L - members.size())
            .forEach(members::add);
      }
      if (members.size() == 1) {
        toGround(members.get(0), proven).ifPresent(list::add);
      } else {
        members.sort(Comparator.comparingDouble(this::angle));
        blocks(members, list);
      }
    }
    return withReference(list);
  }

  /**
   * A long list with its first resistance step repeated on the way and at the end: what that reads
   * otherwise than at the beginning is drift.
   */
  private static List<Step> withReference(List<Step> list) {
    Optional<Step> reference = list.stream().filter(s -> s.kind().isResistance()).findFirst();
    if (reference.isEmpty() || list.size() < REFERENCE_EVERY) {
      return list;
    }
    List<Step> all = new ArrayList<>();
    for (int i = 0; i < list.size(); i++) {
      all.add(list.get(i));
      if (i % REFERENCE_EVERY == REFERENCE_EVERY - 1 && i < list.size() - 1) {
        all.add(reference.get());
      }
    }
    all.add(reference.get());
    return all;
  }

  /** Other contacts of a net, those that are proven first. */
  private List<Contact> helpers(Node home, List<Contact> members, Proven proven) {
    List<Contact> helpers = new ArrayList<>();
    List<Contact> unproven = new ArrayList<>();
    for (Contact contact : wiredByHome.getOrDefault(home, List.of())) {
      if (!members.contains(contact)) {
        (proven.conducting().contains(contact) ? helpers : unproven).add(contact);
      }
    }
    helpers.addAll(unproven);
    return helpers;
  }

  private void blocks(List<Contact> members, List<Step> list) {
    int n = members.size();
    if (n == 2) {
      edge(members.get(0), members.get(1), list);
      return;
    }
    int rest = n % 3;
    int triangles = rest == 0 ? n : n - (rest == 1 ? 4 : 5);
    for (int i = 0; i < triangles; i += 3) {
      triangle(members.get(i), members.get(i + 1), members.get(i + 2), list);
    }
    if (rest == 1) {
      triangle(members.get(n - 4), members.get(n - 3), members.get(n - 2), list);
      edge(members.get(n - 3), members.get(n - 1), list);
      edge(members.get(n - 2), members.get(n - 1), list);
    } else if (rest == 2) {
      triangle(members.get(n - 5), members.get(n - 4), members.get(n - 3), list);
      triangle(members.get(n - 3), members.get(n - 2), members.get(n - 1), list);
    }
  }

  private void triangle(Contact a, Contact b, Contact c, List<Step> list) {
    edge(a, b, list);
    edge(b, c, list);
    edge(a, c, list);
  }

  private void edge(Contact a, Contact b, List<Step> list) {
    steps.resistance(a, b).ifPresent(list::add);
  }

  /** Other partners in the same seating, for what the first look left open or made odd. */
  List<Step> partners(List<Question> questions, Proven proven) {
    List<Step> list = new ArrayList<>();
    for (Question question : questions) {
      Contact contact = question.contacts().get(0);
      List<Contact> others = proven.others(contact).stream().limit(SECOND_LOOK).toList();
      others.forEach(other -> steps.resistanceAgain(contact, other).ifPresent(list::add));
      if (others.size() == SECOND_LOOK && !proven.readTogether(others.get(0), others.get(1))) {
        steps.resistanceAgain(others.get(0), others.get(1)).ifPresent(list::add);
      }
      if (others.isEmpty()) {
        toGround(contact, proven).ifPresent(list::add);
      }
    }
    return list;
  }

  /**
   * One quick look at the path behind a contact; empty when no path of its own lies there, or
   * nothing is there to read it against.
   *
   * @param doubted contacts that are the last choice for the other end
   * @param trusted contacts that are the first
   */
  Optional<Step> look(Contact contact, Set<Contact> doubted, Set<Contact> trusted, Proven proven) {
    if (assembly.branch(contact).chain().isEmpty()) {
      return Optional.empty();
    }
    Optional<Contact> other =
        wiredByHome.getOrDefault(assembly.home(contact), List.of()).stream()
            .filter(c -> !c.equals(contact))
            .min(
                Comparator.comparing((Contact c) -> doubted.contains(c))
                    .thenComparing(c -> !proven.conducting().contains(c))
                    .thenComparing(c -> !trusted.contains(c)));
    return other.isPresent()
        ? steps.resistance(contact, other.get())
        : undoubted(contact, doubted, proven).map(Continuity::atLargest);
  }

  /** Against a ground that is no suspect itself: its dropout would be that of all that use it. */
  private Optional<Step> undoubted(Contact contact, Set<Contact> doubted, Proven proven) {
    return assembly
        .net(contact)
        .flatMap(
            own ->
                proven.conducting().stream()
                    .filter(c -> !doubted.contains(c) && isGroundOf(own.id().side(), c))
                    .findFirst()
                    .or(() -> proven.ground(own.id().side(), contact))
                    .flatMap(ground -> toGround(own, contact, ground)));
  }

  private boolean isGroundOf(Side side, Contact contact) {
    return assembly.isGround(contact)
        && assembly.net(contact).filter(n -> n.id().side() == side).isPresent();
  }

  /**
   * The same with one current instead of three: it shows a path as well and takes half the time.
   */
  private static Step atLargest(Step step) {
    int n = step.currents().size();
    return n < 2
        ? step
        : new Step(
            step.kind(),
            step.high(),
            step.low(),
            step.currents().subList(n - 1, n),
            step.compliance(),
            step.samples());
  }

  /** The load of a rail, when one is known that shows the path; else the junction. */
  private Optional<Step> toGround(Contact contact, Proven proven) {
    return assembly
        .net(contact)
        .flatMap(
            net ->
                proven
                    .ground(net.id().side(), contact)
                    .flatMap(ground -> toGround(net, contact, ground)));
  }

  private Optional<Step> toGround(Net net, Contact contact, Contact ground) {
    if (net.role() == Role.RAIL && solve.showsPaths(contact, ground)) {
      return steps.pair(Kind.ISOLATION, contact, ground);
    }
    return suppliesOnly.contains(net.id())
        ? steps.pair(Kind.JUNCTION, contact, ground)
        : steps.pair(Kind.JUNCTION, ground, contact);
  }

  /** Where a contact lies around the ring; access points come last. */
  private double angle(Contact contact) {
    if (contact instanceof Contact.Pad pad) {
      Position p = assembly.map().position(pad.position());
      return Math.atan2(p.yMm() - middleY, p.xMm() - middleX);
    }
    return 4;
  }
}
