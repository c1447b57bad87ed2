package org.jointwalk.grade;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;

/**
 * What the ring and the wiring allow, before anything is measured: which contacts can be read how,
 * and which positions lie side by side. Built once per pass; quadratic in the positions. Immutable.
 */
final class Ring {

  /** Neighbours are those within this many pitches: the eight around a position of a grid. */
  private static final double REACH = 1.5;

  private final Assembly assembly;
  private final Set<Contact> wired;
  private final List<Contact[]> neighbours = new ArrayList<>();
  private final Map<Contact, Way> ways = new LinkedHashMap<>();
  private final Set<Side> groundedSides = EnumSet.noneOf(Side.class);
  private final double pitchMm;

  Ring(Assembly assembly, Set<Contact> wired) {
    this.assembly = assembly;
    this.wired = wired;
    this.pitchMm = pitch();
    findWays();
    for (Plate plate : Plate.values()) {
      layNeighbours(plate);
    }
  }

  private double pitch() {
    List<Position> positions = List.copyOf(assembly.map().positions().values());
    double[] nearest = new double[positions.size()];
    for (int i = 0; i < nearest.length; i++) {
      nearest[i] = Double.POSITIVE_INFINITY;
      for (int j = 0; j < nearest.length; j++) {
        if (i != j) {
          nearest[i] = Math.min(nearest[i], positions.get(i).distanceMm(positions.get(j)));
        }
      }
    }
    Arrays.sort(nearest);
    return nearest[nearest.length / 2];
  }

  private void layNeighbours(Plate plate) {
    if (assembly.setUp().touches(plate).isEmpty()) {
      return;
    }
    List<Position> positions = List.copyOf(assembly.map().positions().values());
    for (int i = 0; i < positions.size(); i++) {
      for (int j = i + 1; j < positions.size(); j++) {
        if (positions.get(i).distanceMm(positions.get(j)) > REACH * pitchMm) {
          continue;
        }
        Contact a = new Contact.Pad(plate, positions.get(i).id());
        Contact b = new Contact.Pad(plate, positions.get(j).id());
        if (wired.contains(a) && wired.contains(b)) {
          neighbours.add(new Contact[] {a, b});
        }
      }
    }
  }

  /** Pairs of wired contacts that lie side by side on one plate, in map order. */
  List<Contact[]> neighbours() {
    return neighbours;
  }

  /** Typical distance from a position to its nearest neighbour, in millimetres. */
  double pitchMm() {
    return pitchMm;
  }

  boolean wired(Contact contact) {
    return wired.contains(contact);
  }

  /** The wired contacts of a position in this set-up, upper plate first. */
  List<Contact> contacts(String position) {
    List<Contact> contacts = new ArrayList<>();
    for (Plate plate : Plate.values()) {
      Contact contact = new Contact.Pad(plate, position);
      if (assembly.setUp().touches(plate).isPresent() && wired.contains(contact)) {
        contacts.add(contact);
      }
    }
    return contacts;
  }

  /** How a contact can be read, empty when nothing of its own can be seen through it. */
  Optional<Way> way(Contact contact) {
    return Optional.ofNullable(ways.get(contact));
  }

  private void findWays() {
    Map<Node, Integer> sharing = new LinkedHashMap<>();
    for (Contact contact : assembly.contacts()) {
      if (wired.contains(contact)) {
        sharing.merge(assembly.home(contact), 1, Integer::sum);
        if (assembly.isGround(contact)) {
          assembly.net(contact).ifPresent(n -> groundedSides.add(n.id().side()));
        }
      }
    }
    for (Contact contact : assembly.contacts()) {
      if (!wired.contains(contact)) {
        continue;
      }
      if (tied(contact)) {
        ways.put(contact, Way.REPRESENTS);
      } else if (sharing.getOrDefault(assembly.home(contact), 0) > 1) {
        ways.put(contact, Way.NET);
      } else if (grounded(contact)) {
        ways.put(contact, Way.GROUND);
      }
    }
  }

  /** Whether a contact lies on metal that the interposer joins to other lands. */
  boolean tied(Contact contact) {
    return assembly.branch(contact).hub() instanceof Node.TieMetal
        && assembly.branch(contact).chain().isEmpty();
  }

  /** Whether direct current can flow from a contact's net to a ground that can be reached. */
  boolean grounded(Contact contact) {
    Optional<Net> net = assembly.net(contact);
    return net.isPresent()
        && net.get().dcPath()
        && net.get().role() != Role.GROUND
        && net.get().role() != Role.UNUSED
        && groundedSides.contains(net.get().id().side());
  }

  /** Whether a position's own path is hidden behind others, so that only the set is seen. */
  boolean masked(String position) {
    Set<Component> seen = assembly.inBranches(position);
    return !seen.containsAll(assembly.present(position));
  }

  /** How a contact is read. */
  enum Way {
    /** Against other contacts of its net. */
    NET,
    /** By its junction or load to ground. */
    GROUND,
    /** Only for the metal that it shares. */
    REPRESENTS
  }
}
