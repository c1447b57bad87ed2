package org.jointwalk.plan;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Question;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Role;

/**
 * What is read before anything is sourced: the instrument by itself, the contact of ground, then
 * the voltage of every rail, unloaded and loaded, and of every other net. Immutable.
 */
final class Precaution {

  /** Grounds that are tried against each other for one that has landed. */
  private static final int GROUNDS = 6;

  /** Probes of a rail that are read, since one that has not landed reads zero. */
  private static final int RAIL_PROBES = 2;

  private final Assembly assembly;
  private final Set<Contact> wired;
  private final Steps steps;

  Precaution(Assembly assembly, Set<Contact> wired, Steps steps) {
    this.assembly = assembly;
    this.wired = wired;
    this.steps = steps;
  }

  /**
   * @param first whether no voltage was read yet; later seatings read the rails only, since nothing
   *     was connected meanwhile
   */
  List<Step> steps(List<Question> questions, Proven proven, boolean first) {
    List<Contact> contacts = questions.get(0).contacts();
    if (proven.conducting().stream().noneMatch(assembly::isGround)) {
      return groundContact(contacts);
    }
    return contacts.size() == 1
        ? voltages(contacts.get(0), proven, first)
        : discharge(questions, proven);
  }

  private List<Step> voltages(Contact proof, Proven proven, boolean first) {
    List<Step> list = new ArrayList<>();
    rails().forEach(contact -> residual(contact, proven, list));
    if (first || list.isEmpty()) {
      for (Contact contact : signals()) {
        ground(contact, proven)
            .flatMap(g -> steps.pair(Kind.RESIDUAL, contact, g))
            .ifPresent(list::add);
      }
    }
    if (list.isEmpty()) {
      // Nothing but ground: that the board is still has to be read somewhere.
      proven.conducting().stream()
          .filter(c -> !c.equals(proof) && assembly.isGround(c))
          .findFirst()
          .ifPresent(other -> residual(other, proof, list));
    }
    return list;
  }

  private List<Step> discharge(List<Question> questions, Proven proven) {
    List<Step> list = new ArrayList<>();
    for (Question question : questions) {
      Contact contact = question.contacts().get(1);
      ground(contact, proven)
          .flatMap(g -> steps.pair(Kind.DISCHARGE, contact, g))
          .ifPresent(list::add);
      residual(contact, proven, list);
    }
    return list;
  }

  private List<Step> groundContact(List<Contact> grounds) {
    List<Step> list = new ArrayList<>();
    steps.allOpen().ifPresent(list::add);
    Map<NetId, List<Contact>> byNet = new LinkedHashMap<>();
    for (Contact contact : grounds) {
      assembly
          .net(contact)
          .ifPresent(n -> byNet.computeIfAbsent(n.id(), k -> new ArrayList<>()).add(contact));
    }
    for (List<Contact> net : byNet.values()) {
      List<Contact> some = spread(net);
      for (int i = 0; i + 1 < some.size(); i++) {
        steps.resistance(some.get(i), some.get(i + 1)).ifPresent(list::add);
      }
      if (some.size() > 2) {
        steps.resistance(some.get(0), some.get(some.size() - 1)).ifPresent(list::add);
      }
    }
    return list;
  }

  /** A few from all around, so that a plate that sits badly on one side leaves some. */
  private static List<Contact> spread(List<Contact> contacts) {
    List<Contact> some = new ArrayList<>();
    int n = Math.min(GROUNDS, contacts.size());
    for (int i = 0; i < n; i++) {
      some.add(contacts.get(i * contacts.size() / n));
    }
    return some;
  }

  /** Two probes of each rail, since one that has not landed reads zero. */
  private List<Contact> rails() {
    return probes(RAIL_PROBES, net -> net.role() == Role.RAIL);
  }

  private List<Contact> signals() {
    return probes(1, net -> net.role() == Role.SIGNAL && net.dcPath());
  }

  private List<Contact> probes(int each, Predicate<Net> wanted) {
    List<Contact> probes = new ArrayList<>();
    Map<NetId, Integer> taken = new LinkedHashMap<>();
    for (Contact contact : assembly.contacts()) {
      Net net = assembly.net(contact).orElse(null);
      if (net != null
          && wired.contains(contact)
          && wanted.test(net)
          && taken.merge(net.id(), 1, Integer::sum) <= each) {
        probes.add(contact);
      }
    }
    return probes;
  }

  private void residual(Contact contact, Proven proven, List<Step> list) {
    ground(contact, proven).ifPresent(ground -> residual(contact, ground, list));
  }

  private void residual(Contact contact, Contact ground, List<Step> list) {
    Optional<Step> unloaded = steps.pair(Kind.RESIDUAL, contact, ground);
    if (unloaded.isPresent()) {
      list.add(unloaded.get());
      steps.pair(Kind.RESIDUAL_LOADED, contact, ground).ifPresent(list::add);
    }
  }

  /** The nearest proven ground of the contact's board. */
  private Optional<Contact> ground(Contact contact, Proven proven) {
    return assembly.net(contact).flatMap(n -> proven.ground(n.id().side(), contact));
  }
}
