package org.jointwalk.grade;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
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
  private static final double BESIDE = 1.5;

  /** Damage is seldom alone: what lies within this many pitches was bent together. */
  private static final double NEAR = 3;

  private final Assembly assembly;
  private final Set<Contact> wired;
  private final List<Neighbours> neighbours = new ArrayList<>();
  private final Map<String, List<String>> beside = new LinkedHashMap<>();
  private final Map<String, List<String>> near = new LinkedHashMap<>();
  private final Map<Contact, Way> ways = new LinkedHashMap<>();
  private final Set<Side> groundedSides = EnumSet.noneOf(Side.class);
  private final Shunts shunts;

  /** Two wired contacts that lie side by side on one plate. */
  record Neighbours(Contact.Pad a, Contact.Pad b) {}

  Ring(Assembly assembly, Capabilities capabilities, Set<Contact> wired) {
    this.assembly = assembly;
    this.wired = wired;
    this.shunts = new Shunts(assembly, capabilities, wired);
    layNeighbours();
    findWays();
  }

  private void layNeighbours() {
    List<Position> positions = List.copyOf(assembly.map().positions().values());
    double pitchMm = pitchMm(positions);
    for (int i = 0; i < positions.size(); i++) {
      for (int j = i + 1; j < positions.size(); j++) {
        double mm = positions.get(i).distanceMm(positions.get(j));
        if (mm <= NEAR * pitchMm) {
          note(near, positions.get(i).id(), positions.get(j).id());
        }
        if (mm <= BESIDE * pitchMm) {
          note(beside, positions.get(i).id(), positions.get(j).id());
          addNeighbours(positions.get(i).id(), positions.get(j).id());
        }
      }
    }
  }

  private void addNeighbours(String p, String q) {
    for (Plate plate : Plate.values()) {
      Contact.Pad a = new Contact.Pad(plate, p);
      Contact.Pad b = new Contact.Pad(plate, q);
      if (isReached(a) && isReached(b)) {
        neighbours.add(new Neighbours(a, b));
      }
    }
  }

  private static void note(Map<String, List<String>> lists, String a, String b) {
    lists.computeIfAbsent(a, k -> new ArrayList<>()).add(b);
    lists.computeIfAbsent(b, k -> new ArrayList<>()).add(a);
  }

  /** Typical distance from a position to its nearest neighbour. */
  private static double pitchMm(List<Position> positions) {
    double[] nearest = new double[positions.size()];
    Arrays.fill(nearest, Double.POSITIVE_INFINITY);
    for (int i = 0; i < nearest.length; i++) {
      for (int j = 0; j < i; j++) {
        double mm = positions.get(i).distanceMm(positions.get(j));
        nearest[i] = Math.min(nearest[i], mm);
        nearest[j] = Math.min(nearest[j], mm);
      }
    }
    Arrays.sort(nearest);
    return nearest[nearest.length / 2];
  }

  private boolean isReached(Contact.Pad contact) {
    return assembly.setUp().touches(contact.plate()).isPresent() && wired.contains(contact);
  }

  /** Pairs of wired contacts that lie side by side on one plate, each pair once, in map order. */
  List<Neighbours> neighbours() {
    return Collections.unmodifiableList(neighbours);
  }

  /** The positions side by side with one, in map order. */
  List<String> beside(String position) {
    return Collections.unmodifiableList(beside.getOrDefault(position, List.of()));
  }

  /** The positions near one, those side by side among them. */
  List<String> near(String position) {
    return Collections.unmodifiableList(near.getOrDefault(position, List.of()));
  }

  boolean wired(Contact contact) {
    return wired.contains(contact);
  }

  /** The wired contacts of a position in this set-up, upper plate first. */
  List<Contact> contacts(String position) {
    List<Contact> contacts = new ArrayList<>();
    for (Plate plate : Plate.values()) {
      Contact.Pad contact = new Contact.Pad(plate, position);
      if (isReached(contact)) {
        contacts.add(contact);
      }
    }
    return contacts;
  }

  /** The wired contact through which a position's own path is seen. */
  Optional<Contact> subject(String position) {
    if (shunts.of(position).isPresent()) {
      return shunts.of(position).map(Shunts.Shunt::over);
    }
    return contacts(position).stream()
        .filter(c -> !assembly.branch(c).chain().isEmpty())
        .findFirst();
  }

  /** How a contact can be read, empty when nothing of its own can be seen through it. */
  Optional<Way> way(Contact contact) {
    return Optional.ofNullable(ways.get(contact));
  }

  /** Whether a contact is read for its own sake. */
  boolean isRead(Contact contact) {
    Way way = ways.get(contact);
    return way != null && way != Way.REPRESENTS;
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
      if (shunts.of(contact).isPresent()) {
        ways.put(contact, Way.SHUNT);
      } else if (tied(contact)) {
        ways.put(contact, Way.REPRESENTS);
      } else if (sharing.getOrDefault(assembly.home(contact), 0) > 1) {
        ways.put(contact, Way.NET);
      } else if (grounded(contact)) {
        ways.put(contact, Way.GROUND);
      }
    }
  }

  /** Whether a contact lies on metal that the interposer joins to other lands. */
  private boolean tied(Contact contact) {
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
    if (shunts.of(position).isPresent()) {
      return false;
    }
    Set<Component> seen = assembly.inBranches(position);
    return !seen.containsAll(assembly.present(position));
  }

  /** The via of a position that is seen past its plating. */
  Optional<Shunts.Shunt> shunt(String position) {
    return shunts.of(position);
  }

  /** How a contact is read. */
  enum Way {
    /** Against other contacts of its net. */
    NET,
    /** By its junction or load to ground. */
    GROUND,
    /** Against the other land of its via, past the plating that joins them. */
    SHUNT,
    /** Only for the metal that it shares. */
    REPRESENTS
  }
}
