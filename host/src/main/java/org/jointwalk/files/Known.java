package org.jointwalk.files;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Side;

/**
 * The ids that a pad map declares, for the parts of the file that refer to them. Where the whole
 * list is missing, which is told once, nothing is said of those who refer to it. For one thread.
 */
final class Known {

  private final Set<String> positions = new LinkedHashSet<>();
  private final Map<Side, Set<String>> nets = new EnumMap<>(Side.class);

  Known() {
    for (Side side : Side.values()) {
      nets.put(side, new LinkedHashSet<>());
    }
  }

  /** Declares a position; false when it was declared before. */
  boolean addPosition(String id) {
    return positions.add(id);
  }

  /** Declares a net; false when it was declared before. */
  boolean addNet(NetId id) {
    return nets(id.side()).add(id.name());
  }

  /** Names of a board's nets, in the order of the file. */
  Set<String> nets(Side side) {
    return nets.getOrDefault(side, Set.of());
  }

  /** Reads the id of a position that must be declared. */
  String position(Field field) {
    return position(field, field.id());
  }

  /** Tells an id, found at a field, that is not declared. */
  String position(Field field, String id) {
    boolean listed = positions.isEmpty() || positions.contains(id);
    if (!id.equals(Field.STAND_IN) && !listed) {
      field.unknown("the map has no such position", id, positions);
    }
    return id;
  }

  /** Reads the name of a net that must be declared. */
  NetId net(Side side, Field field) {
    String name = field.id();
    boolean listed = nets(side).isEmpty() || nets(side).contains(name);
    if (!name.equals(Field.STAND_IN) && !listed) {
      field.unknown("the " + Words.of(side) + " board has no such net", name, nets(side));
    }
    return new NetId(side, name);
  }

  /** Reads ids of positions, each of which must be declared and may be named once. */
  List<String> positions(Field field) {
    List<String> ids = new ArrayList<>();
    for (Field item : field.items()) {
      String id = position(item);
      if (!id.equals(Field.STAND_IN) && ids.contains(id)) {
        item.error("this position is named twice here", "each position once", "Remove one");
      }
      ids.add(id);
    }
    return ids;
  }
}
