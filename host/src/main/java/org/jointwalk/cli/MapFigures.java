package org.jointwalk.cli;

import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;

/** What maps hold, counted. Stateless. */
final class MapFigures {

  private MapFigures() {}

  /** Nets of a board by role, in the order of the roles; a role that no net has is left out. */
  static Map<Role, Integer> nets(PadMap map, Side side) {
    Map<Role, Integer> nets = new EnumMap<>(Role.class);
    for (Net net : map.nets().values()) {
      if (net.id().side() == side) {
        nets.merge(net.role(), 1, Integer::sum);
      }
    }
    return nets;
  }

  /** Positions that serve each function with a net of either board, in the order of the map. */
  static Map<String, Integer> functions(PadMap map) {
    Map<String, Integer> positions = new LinkedHashMap<>();
    map.functions().forEach(function -> positions.put(function, 0));
    for (Position position : map.positions().values()) {
      Stream.of(Side.values())
          .map(side -> map.net(position.net(side)).function())
          .distinct()
          .forEach(function -> positions.computeIfPresent(function, (f, count) -> count + 1));
    }
    return positions;
  }

  /** Positions whose lands a variant of the interposer ties to others. */
  static int tied(Interposer interposer) {
    return (int)
        interposer.ties().stream().flatMap(tie -> tie.positions().stream()).distinct().count();
  }

  /** References of one kind. */
  static int references(PadMap map, Class<?> kind) {
    return (int) map.references().stream().filter(kind::isInstance).count();
  }

  /** Positions that a fixture can force from a plate. */
  static int wired(FixtureMap fixture, Plate plate) {
    return count(fixture.contacts(), contact -> isOn(contact, plate));
  }

  /** Access points that a fixture can force. */
  static int points(FixtureMap fixture) {
    return count(fixture.contacts(), Contact.Point.class::isInstance);
  }

  private static boolean isOn(Contact contact, Plate plate) {
    return contact instanceof Contact.Pad pad && pad.plate() == plate;
  }

  private static int count(Set<Contact> contacts, Predicate<Contact> predicate) {
    return (int) contacts.stream().filter(predicate).count();
  }
}
