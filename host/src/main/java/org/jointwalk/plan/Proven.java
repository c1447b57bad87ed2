package org.jointwalk.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.PathEstimate.Evidence;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;

/** The contacts that have shown a path in the seating in place. Immutable. */
final class Proven {

  private final Assembly assembly;
  private final Set<Contact> conducting = new LinkedHashSet<>();
  private final Set<Contact> high = new LinkedHashSet<>();
  private final Map<Contact, Set<Contact>> partners = new LinkedHashMap<>();
  private final Map<Side, List<Contact>> grounds = new EnumMap<>(Side.class);

  Proven(Assembly assembly, Estimates estimates, int seating) {
    this.assembly = assembly;
    for (PathEstimate path : estimates.paths()) {
      if (path.seating() != seating) {
        continue;
      }
      partners.put(path.contact(), new LinkedHashSet<>(path.partners()));
      if (path.evidence() == Evidence.CONDUCTS) {
        conducting.add(path.contact());
        if (path.ohms().filter(ohms -> ohms.value() > limit(path.contact())).isPresent()) {
          high.add(path.contact());
        }
      }
    }
    for (Contact contact : conducting) {
      assembly
          .net(contact)
          .filter(n -> n.role() == Role.GROUND)
          .map(n -> n.id().side())
          .ifPresent(side -> grounds.computeIfAbsent(side, k -> new ArrayList<>()).add(contact));
    }
  }

  Set<Contact> conducting() {
    return conducting;
  }

  boolean readTogether(Contact a, Contact b) {
    return partners.getOrDefault(a, Set.of()).contains(b);
  }

  /**
   * The proven ground of a board that is nearest to a contact. One with too much resistance of its
   * own is the last choice: it would be read as the contact's.
   */
  Optional<Contact> ground(Side side, Contact near) {
    return grounds.getOrDefault(side, List.of()).stream()
        .min(
            Comparator.comparing((Contact c) -> high.contains(c))
                .thenComparingDouble(c -> distance(c, near)));
  }

  /** Proven contacts of the same net that a contact was not read against, nearest first. */
  List<Contact> others(Contact contact) {
    return conducting.stream()
        .filter(c -> !c.equals(contact) && assembly.home(c).equals(assembly.home(contact)))
        .filter(c -> !readTogether(contact, c))
        .sorted(Comparator.comparingDouble(c -> distance(c, contact)))
        .toList();
  }

  /** The limit of a good joint behind a contact, in ohm; the smaller one where it has two. */
  private double limit(Contact contact) {
    if (contact instanceof Contact.Pad pad) {
      PadMap map = assembly.map();
      return Math.min(
          map.limit(pad.position(), Side.UPPER).value(),
          map.limit(pad.position(), Side.LOWER).value());
    }
    return assembly.map().limits().power().value();
  }

  /** Distance along the board in millimetres; an access point counts as far. */
  private double distance(Contact a, Contact b) {
    if (a instanceof Contact.Pad p && b instanceof Contact.Pad q) {
      Position here = assembly.map().position(p.position());
      return here.distanceMm(assembly.map().position(q.position()));
    }
    return Double.MAX_VALUE;
  }
}
