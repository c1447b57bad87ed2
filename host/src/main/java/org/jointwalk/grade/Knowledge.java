package org.jointwalk.grade;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.PathEstimate.Evidence;
import org.jointwalk.job.Residual;
import org.jointwalk.job.Seating;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Branch;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Side;

/** The estimates of a pass, looked up by contact and seating. Immutable once made. */
final class Knowledge {

  private final Assembly assembly;
  private final Map<Contact, List<PathEstimate>> paths = new LinkedHashMap<>();
  private final NavigableMap<Integer, Map<Contact, PathEstimate>> bySeating = new TreeMap<>();
  private final Map<Integer, Map<Node, List<Contact>>> conducting = new LinkedHashMap<>();
  private final Set<Contact> good = new LinkedHashSet<>();
  private final Map<Integer, Set<Side>> released = new LinkedHashMap<>();
  private final Set<Integer> tilted = new TreeSet<>();

  Knowledge(Assembly assembly, Estimates estimates) {
    this.assembly = assembly;
    for (Residual residual : estimates.residuals()) {
      assembly
          .net(residual.contact())
          .ifPresent(
              net ->
                  released
                      .computeIfAbsent(residual.seating(), k -> EnumSet.noneOf(Side.class))
                      .add(net.id().side()));
    }
    for (PathEstimate path : estimates.paths()) {
      bySeating
          .computeIfAbsent(path.seating(), k -> new LinkedHashMap<>())
          .put(path.contact(), path);
    }
    bySeating.values().forEach(seating -> seating.values().forEach(this::index));
    for (int seating : bySeating.keySet()) {
      if (isTilted(seating)) {
        tilted.add(seating);
      }
    }
  }

  private void index(PathEstimate path) {
    paths.computeIfAbsent(path.contact(), k -> new ArrayList<>()).add(path);
    if (path.evidence() == Evidence.CONDUCTS) {
      good.add(path.contact());
      conducting
          .computeIfAbsent(path.seating(), k -> new LinkedHashMap<>())
          .computeIfAbsent(assembly.home(path.contact()), k -> new ArrayList<>())
          .add(path.contact());
    }
  }

  /**
   * The first seating reads everything, so that a large share without a path means that it sat
   * badly. Later ones read suspects and controls: there the contacts count that had a path before.
   */
  private boolean isTilted(int seating) {
    boolean first = seating == firstSeating();
    int read = 0;
    int lost = 0;
    for (PathEstimate path : here(seating).values()) {
      if (first || conductedBefore(path)) {
        read++;
        lost += path.evidence() == Evidence.CONDUCTS ? 0 : 1;
      }
    }
    return Seating.isTilted(lost, read, first);
  }

  private boolean conductedBefore(PathEstimate path) {
    return paths(path.contact()).stream()
        .anyMatch(p -> p.seating() < path.seating() && p.evidence() == Evidence.CONDUCTS);
  }

  private Map<Contact, PathEstimate> here(int seating) {
    return bySeating.getOrDefault(seating, Map.of());
  }

  /** The first seating in which anything could be read; 0 before there is one. */
  int firstSeating() {
    return bySeating.keySet().stream().filter(this::released).findFirst().orElse(0);
  }

  /** Seatings in which anything was tried, ascending. */
  Set<Integer> seatings() {
    return Collections.unmodifiableSet(bySeating.keySet());
  }

  /**
   * Whether anything may be sourced in a seating: a ground was proven and voltages were read
   * against it, or no board is there to be harmed.
   */
  boolean released(int seating) {
    return assembly.setUp().bare() || released.containsKey(seating);
  }

  /** The same for the board that a contact leads to. */
  boolean released(Contact contact, int seating) {
    Set<Side> sides = released.getOrDefault(seating, Set.of());
    return assembly.setUp().bare()
        || assembly
            .net(contact)
            .map(Net::id)
            .map(id -> sides.contains(id.side()))
            .orElse(!sides.isEmpty());
  }

  /** Whether a missing path says nothing: the plate sat badly, or no ground was proven. */
  boolean poor(int seating) {
    return tilted.contains(seating) || !released(seating);
  }

  /** What a seating says of a contact. */
  Optional<PathEstimate> path(Contact contact, int seating) {
    return Optional.ofNullable(here(seating).get(contact));
  }

  /** What all seatings say of a contact, in order. */
  List<PathEstimate> paths(Contact contact) {
    return Collections.unmodifiableList(paths.getOrDefault(contact, List.of()));
  }

  boolean conducts(Contact contact, int seating) {
    PathEstimate path = here(seating).get(contact);
    return path != null && path.evidence() == Evidence.CONDUCTS;
  }

  /** Whether a contact had a path in any seating. */
  boolean everConducts(Contact contact) {
    return good.contains(contact);
  }

  /** The contacts that had a path in any seating, in the order first read. */
  List<Contact> good() {
    return List.copyOf(good);
  }

  /** The contacts with one home that had a path in a seating, in the order read. */
  List<Contact> conducting(Node home, int seating) {
    return Collections.unmodifiableList(
        conducting.getOrDefault(seating, Map.of()).getOrDefault(home, List.of()));
  }

  /**
   * The node that a contact stands for in a seating: its net when a path was seen, else itself,
   * since an open path makes a pad a net of its own. Shared metal of the interposer stands for
   * itself.
   */
  Object meets(Contact contact, int seating) {
    return standsForHome(contact) || conducts(contact, seating)
        ? (Object) assembly.home(contact)
        : contact;
  }

  /** The same after all seatings so far. */
  Object meets(Contact contact) {
    return standsForHome(contact) || everConducts(contact)
        ? (Object) assembly.home(contact)
        : contact;
  }

  private boolean standsForHome(Contact contact) {
    Branch branch = assembly.branch(contact);
    return branch.chain().isEmpty() && branch.hub() instanceof Node.TieMetal;
  }

  /** Contacts that were read in a seating, in the order read. */
  Set<Contact> read(int seating) {
    return Collections.unmodifiableSet(here(seating).keySet());
  }
}
