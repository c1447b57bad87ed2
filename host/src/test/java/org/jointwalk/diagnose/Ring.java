package org.jointwalk.diagnose;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.AccessPoint;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Limits;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;

/**
 * A small invented ring of 24 pads: six on ground, two on the main rail, four each for radio and
 * touch, four that serve nobody knows what, and four that cannot be read.
 */
final class Ring {

  private Ring() {}

  static PadMap map() {
    return map(Map.of(Side.UPPER, "radio board", Side.LOWER, "main board"), true);
  }

  static PadMap map(Map<Side, String> names, boolean points) {
    Map<String, Position> positions = new LinkedHashMap<>();
    Map<NetId, Net> nets = new LinkedHashMap<>();
    for (int i = 1; i <= 24; i++) {
      String id = String.format(Locale.ROOT, "N%02d", i);
      String net = net(i);
      positions.put(id, new Position(id, i, 0, net, net));
      for (Side side : Side.values()) {
        put(nets, side, net, i);
      }
    }
    // What only the upper board has makes it the one that carries the radio.
    NetId amplifier = new NetId(Side.UPPER, "RF_PA");
    nets.put(
        amplifier,
        new Net(amplifier, Role.SIGNAL, "radio", Optional.empty(), true, new Ohms(0.01)));
    Map<String, AccessPoint> access = new LinkedHashMap<>();
    if (points) {
      access.put("P1", new AccessPoint("P1", new NetId(Side.LOWER, "V_MAIN"), "by the connector"));
    }
    return new PadMap(
        "Saltmarsh S2",
        "test",
        names,
        List.of(new Interposer("thin", 0.4, false, new Ohms(0.001), List.of())),
        positions,
        nets,
        List.of(),
        access,
        new Limits(new Ohms(2), new Ohms(0.5), Map.of()),
        List.of());
  }

  private static String net(int i) {
    if (i <= 6) {
      return "GND";
    }
    if (i <= 8) {
      return "V_MAIN";
    }
    return "S" + i;
  }

  private static void put(Map<NetId, Net> nets, Side side, String name, int i) {
    NetId id = new NetId(side, name);
    Role role =
        i <= 6 ? Role.GROUND : i <= 8 ? Role.RAIL : i == 23 || i == 24 ? Role.UNUSED : Role.SIGNAL;
    String function = i >= 9 && i <= 12 ? "radio" : i >= 13 && i <= 16 ? "touch" : "unknown";
    boolean dcPath = i < 21;
    nets.putIfAbsent(id, new Net(id, role, function, Optional.empty(), dcPath, new Ohms(0.01)));
  }

  /** The same model with an interposer that joins the top lands of some positions. */
  static PadMap tied(PadMap map, String... positions) {
    Tie tie = new Tie(Tie.Where.TOP, List.of(positions), new Ohms(0.001));
    return new PadMap(
        map.device(),
        map.revision(),
        map.boardNames(),
        List.of(new Interposer("thin", 0.4, false, new Ohms(0.001), List.of(tie))),
        map.positions(),
        map.nets(),
        map.loads(),
        map.points(),
        map.limits(),
        map.references());
  }

  /** The same model with other ids, in the same order. */
  static PadMap renamed(PadMap map, Map<String, String> names) {
    Map<String, Position> positions = new LinkedHashMap<>();
    for (Position p : map.positions().values()) {
      String id = names.getOrDefault(p.id(), p.id());
      positions.put(id, new Position(id, p.xMm(), p.yMm(), p.upperNet(), p.lowerNet()));
    }
    return new PadMap(
        map.device(),
        map.revision(),
        map.boardNames(),
        map.interposers(),
        positions,
        map.nets(),
        map.loads(),
        map.points(),
        map.limits(),
        map.references());
  }

  /** The same model upside down. */
  static PadMap mirrored(PadMap map) {
    Map<String, Position> positions = new LinkedHashMap<>();
    for (Position p : map.positions().values()) {
      positions.put(p.id(), new Position(p.id(), p.xMm(), p.yMm(), p.lowerNet(), p.upperNet()));
    }
    Map<NetId, Net> nets = new LinkedHashMap<>();
    for (Net net : map.nets().values()) {
      NetId id = new NetId(net.id().side().other(), net.id().name());
      nets.put(
          id, new Net(id, net.role(), net.function(), net.nominal(), net.dcPath(), net.trace()));
    }
    List<AccessPoint> points = new ArrayList<>();
    for (AccessPoint point : map.points().values()) {
      NetId net = new NetId(point.net().side().other(), point.net().name());
      points.add(new AccessPoint(point.id(), net, point.place()));
    }
    Map<String, AccessPoint> access = new LinkedHashMap<>();
    points.forEach(p -> access.put(p.id(), p));
    return new PadMap(
        map.device(),
        map.revision(),
        Map.of(
            Side.UPPER,
            Optional.ofNullable(map.boardNames().get(Side.LOWER)).orElseThrow(),
            Side.LOWER,
            Optional.ofNullable(map.boardNames().get(Side.UPPER)).orElseThrow()),
        map.interposers(),
        positions,
        nets,
        map.loads(),
        access,
        map.limits(),
        map.references());
  }
}
