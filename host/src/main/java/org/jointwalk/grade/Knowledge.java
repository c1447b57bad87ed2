package org.jointwalk.grade;

import java.util.ArrayList;
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
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Branch;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Node;

/** The estimates of a pass, looked up by contact and seating. Immutable once made. */
final class Knowledge {

  /** A seating in which more of its contacts than this lack a path did not sit well. */
  private static final double TILTED = 0.08;

  private final Assembly assembly;
  private final Map<Contact, NavigableMap<Integer, PathEstimate>> paths = new LinkedHashMap<>();
  private final Set<Integer> seatings = new TreeSet<>();
  private final Set<Integer> tilted = new TreeSet<>();

  Knowledge(Assembly assembly, Estimates estimates) {
    this.assembly = assembly;
    for (PathEstimate path : estimates.paths()) {
      seatings.add(path.seating());
      paths.computeIfAbsent(path.contact(), k -> new TreeMap<>()).put(path.seating(), path);
    }
    for (int seating : seatings) {
      if (isTilted(seating)) {
        tilted.add(seating);
      }
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
    for (NavigableMap<Integer, PathEstimate> bySeating : paths.values()) {
      PathEstimate path = bySeating.get(seating);
      if (path == null || (!first && !conductedBefore(bySeating, seating))) {
        continue;
      }
      read++;
      if (path.evidence() != Evidence.CONDUCTS) {
        lost++;
      }
    }
    return lost > Math.max(first ? 6 : 1, TILTED * read);
  }

  private static boolean conductedBefore(NavigableMap<Integer, PathEstimate> paths, int seating) {
    return paths.headMap(seating).values().stream()
        .anyMatch(p -> p.evidence() == Evidence.CONDUCTS);
  }

  int firstSeating() {
    return seatings.isEmpty() ? 0 : seatings.iterator().next();
  }

  /** Seatings so far, ascending. */
  Set<Integer> seatings() {
    return seatings;
  }

  boolean tilted(int seating) {
    return tilted.contains(seating);
  }

  /** What a seating says of a contact. */
  Optional<PathEstimate> path(Contact contact, int seating) {
    NavigableMap<Integer, PathEstimate> bySeating = paths.get(contact);
    return bySeating == null ? Optional.empty() : Optional.ofNullable(bySeating.get(seating));
  }

  /** What all seatings say of a contact, in order. */
  List<PathEstimate> paths(Contact contact) {
    NavigableMap<Integer, PathEstimate> bySeating = paths.get(contact);
    return bySeating == null ? List.of() : List.copyOf(bySeating.values());
  }

  boolean conducts(Contact contact, int seating) {
    return path(contact, seating).map(p -> p.evidence() == Evidence.CONDUCTS).orElse(false);
  }

  /** Whether a contact had a path in any seating. */
  boolean everConducts(Contact contact) {
    return paths(contact).stream().anyMatch(p -> p.evidence() == Evidence.CONDUCTS);
  }

  /** The contacts that had a path in any seating, in the order first read. */
  List<Contact> good() {
    List<Contact> good = new ArrayList<>();
    for (Contact contact : paths.keySet()) {
      if (everConducts(contact)) {
        good.add(contact);
      }
    }
    return good;
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

  /** Contacts that were read in a seating. */
  Set<Contact> read(int seating) {
    Set<Contact> read = new LinkedHashSet<>();
    paths.forEach(
        (contact, bySeating) -> {
          if (bySeating.containsKey(seating)) {
            read.add(contact);
          }
        });
    return read;
  }
}
