package org.jointwalk.plan;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Question;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Role;

/**
 * Which pairs of nets are read for bridges. A multiplexer reads the pairs asked for, one by one. A
 * matrix splits all nets that have nothing in common into two groups, once for each binary digit of
 * their numbers: any two nets have different numbers and fall apart at least once, so that the
 * logarithm of their count is enough (Kautz 1974). Nets that a good board joins by a resistance,
 * and rails, stay out of the groups. Immutable.
 */
final class Isolation {

  /** Below this resistance a path is read at the current of a resistance step, in ohm. */
  private static final double SMALL_OHMS = 100;

  /** Fewer pairs than this many times the digits are read one by one even on a matrix. */
  private static final int WORTH_GROUPING = 2;

  private final Assembly assembly;
  private final Capabilities capabilities;
  private final Steps steps;
  private final Solve solve;

  Isolation(Assembly assembly, Capabilities capabilities, Steps steps, Solve solve) {
    this.assembly = assembly;
    this.capabilities = capabilities;
    this.steps = steps;
    this.solve = solve;
  }

  List<Step> steps(List<Question> questions, Proven proven) {
    List<Step> list = new ArrayList<>();
    List<Question> alone = questions;
    if (capabilities.switching().groups()) {
      Set<Object> loaded = loaded();
      Set<Contact> free = new LinkedHashSet<>();
      alone = new ArrayList<>();
      for (Question question : questions) {
        boolean apart =
            question.contacts().stream().noneMatch(c -> loaded.contains(assembly.home(c)));
        if (apart) {
          free.addAll(question.contacts());
        } else {
          alone.add(question);
        }
      }
      List<Step> cuts = cuts(free, proven);
      if (questions.size() - alone.size() > WORTH_GROUPING * cuts.size()) {
        list.addAll(cuts);
      } else {
        alone = questions;
      }
    }
    alone.forEach(q -> pair(q, list));
    return list;
  }

  /** The pairs and groups asked for, one by one. */
  List<Step> places(List<Question> questions) {
    List<Step> list = new ArrayList<>();
    for (Question question : questions) {
      if (question.against().isEmpty()) {
        pair(question, list);
        // Also at the current that tells a small resistance best.
        steps
            .resistance(question.contacts().get(0), question.contacts().get(1))
            .filter(step -> !list.contains(step))
            .ifPresent(list::add);
      } else {
        steps.between(Kind.ISOLATION, question.contacts(), question.against()).ifPresent(list::add);
      }
    }
    return list;
  }

  private void pair(Question question, List<Step> list) {
    Contact a = question.contacts().get(0);
    Contact b = question.contacts().get(1);
    double expected = solve.expectedSiemens(a, b);
    if (expected > 1 / SMALL_OHMS) {
      steps.resistance(a, b).ifPresent(list::add);
    } else {
      steps.pair(Kind.ISOLATION, a, b).ifPresent(list::add);
    }
  }

  /**
   * Homes that a good board joins to others by something that conducts at a few millivolt, and
   * rails, whose capacitors would take longer to charge than a reading lasts. Ground may stay in:
   * once what hangs on it by resistance is out, nothing conducts to it either.
   */
  private Set<Object> loaded() {
    Set<Object> loaded = new LinkedHashSet<>();
    for (Load load : assembly.loads()) {
      boolean quiet =
          load instanceof Load.Capacitor
              || load instanceof Load.Unknown
              || (load instanceof Load.Junction j && j.material() == Load.Material.SILICON);
      if (!quiet) {
        loaded.add(new Node.OnBoard(load.side(), load.from()));
        loaded.add(new Node.OnBoard(load.side(), load.to()));
      }
    }
    for (Net net : assembly.map().nets().values()) {
      if (net.role() == Role.RAIL) {
        loaded.add(Node.OnBoard.of(net.id()));
      } else if (net.role() == Role.GROUND) {
        loaded.remove(Node.OnBoard.of(net.id()));
      }
    }
    return loaded;
  }

  /** One contact stands for each net; one whose path is open is a net of its own. */
  List<Step> cuts(Set<Contact> free, Proven proven) {
    Map<Object, Contact> standing = new LinkedHashMap<>();
    for (Contact contact : free) {
      Object node = proven.conducting().contains(contact) ? assembly.home(contact) : contact;
      standing.putIfAbsent(node, contact);
    }
    List<Contact> numbered = List.copyOf(standing.values());
    List<Step> cuts = new ArrayList<>();
    for (int digit = 0; (1 << digit) < numbered.size(); digit++) {
      List<Contact> high = new ArrayList<>();
      List<Contact> low = new ArrayList<>();
      for (int n = 0; n < numbered.size(); n++) {
        ((n >> digit & 1) == 0 ? high : low).add(numbered.get(n));
      }
      steps.between(Kind.ISOLATION, high, low).ifPresent(cuts::add);
    }
    return cuts;
  }
}
