package org.jointwalk.stack;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.quantity.Ohms;

/**
 * What is known of one device model. Maps keep the order of the file.
 *
 * @param device the model
 * @param revision of this map, free text
 * @param boardNames what the shop calls each board
 * @param interposers the variants, the usual one first, at least one
 * @param positions by id, at least one
 * @param nets by identity; every net that a position names is there
 * @param loads the boards' load graphs
 * @param points access points by id
 * @param limits of a good joint
 * @param references known-good readings, possibly none
 */
public record PadMap(
    String device,
    String revision,
    Map<Side, String> boardNames,
    List<Interposer> interposers,
    Map<String, Position> positions,
    Map<NetId, Net> nets,
    List<Load> loads,
    Map<String, AccessPoint> points,
    Limits limits,
    List<Reference> references) {

  /**
   * @throws IllegalArgumentException when a position, point, tie or reference names what the map
   *     does not have; a reader of files reports such faults all at once before it comes here
   */
  public PadMap {
    boardNames = Map.copyOf(boardNames);
    interposers = List.copyOf(interposers);
    positions = Collections.unmodifiableMap(new LinkedHashMap<>(positions));
    nets = Collections.unmodifiableMap(new LinkedHashMap<>(nets));
    loads = List.copyOf(loads);
    points = Collections.unmodifiableMap(new LinkedHashMap<>(points));
    references = List.copyOf(references);
    require(!interposers.isEmpty(), "a map needs an interposer variant");
    require(!positions.isEmpty(), "a map needs a position");
    for (Side side : Side.values()) {
      require(boardNames.containsKey(side), "a map names both boards");
      for (Position p : positions.values()) {
        require(nets.containsKey(p.net(side)), p.id() + " is on an unknown net " + p.net(side));
      }
    }
    for (AccessPoint point : points.values()) {
      require(nets.containsKey(point.net()), point.id() + " reaches an unknown net");
    }
    for (Reference reference : references) {
      require(nets.containsKey(reference.net()), "a reference to unknown net " + reference.net());
    }
    for (Interposer interposer : interposers) {
      for (Tie tie : interposer.ties()) {
        require(
            positions.keySet().containsAll(tie.positions()),
            interposer.variant() + " ties an unknown position");
      }
    }
  }

  /** The position with this id, which must exist. */
  public Position position(String id) {
    Position found = positions.get(id);
    if (found == null) {
      throw new IllegalArgumentException("no position " + id + " in the map of " + device);
    }
    return found;
  }

  /** The net with this identity, which must exist. */
  public Net net(NetId id) {
    Net found = nets.get(id);
    if (found == null) {
      throw new IllegalArgumentException("no net " + id + " in the map of " + device);
    }
    return found;
  }

  /** The net of a position's pad on a board. */
  public Net netAt(String position, Side side) {
    return net(position(position).net(side));
  }

  /** The limit of one joint on a side of a position. */
  public Ohms limit(String position, Side side) {
    return limits.of(position, netAt(position, side).role());
  }

  /** Position ids of each net of a board, in map order; cost is one walk over the positions. */
  public Map<NetId, List<String>> padsByNet(Side side) {
    Map<NetId, List<String>> pads = new LinkedHashMap<>();
    for (Position p : positions.values()) {
      pads.computeIfAbsent(p.net(side), k -> new ArrayList<>()).add(p.id());
    }
    return pads;
  }

  /** The functions that nets of this map serve, in map order, without {@code unknown}. */
  public Set<String> functions() {
    Set<String> functions = new LinkedHashSet<>();
    for (Net net : nets.values()) {
      functions.add(net.function());
    }
    functions.remove("unknown");
    return functions;
  }

  private static void require(boolean holds, String message) {
    if (!holds) {
      throw new IllegalArgumentException(message);
    }
  }
}
