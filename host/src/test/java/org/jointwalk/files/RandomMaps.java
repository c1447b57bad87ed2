package org.jointwalk.files;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.random.RandomGenerator;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.AccessPoint;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Limits;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;

/** Draws pad maps that a file may hold, with odd but allowed names and numbers. */
final class RandomMaps {

  private static final List<String> NAMES =
      List.of(
          "GND", "+5V", "=SUM(A1)", "@cmd", "-12V", "'quoted", "a,b", "c;d", "\"e\"", "\u03a9net");
  private static final List<String> FUNCTIONS =
      List.of("unknown", "radio", "touch", "=1+1", "wake up", "a \"b\", c");

  private RandomMaps() {}

  static PadMap padMap(RandomGenerator random) {
    Map<NetId, Net> nets = new LinkedHashMap<>();
    for (Side side : Side.values()) {
      int count = 2 + random.nextInt(NAMES.size() - 2);
      for (String name : NAMES.subList(0, count)) {
        nets.put(new NetId(side, name), net(random, new NetId(side, name)));
      }
    }
    Map<String, Position> positions = positions(random, nets);
    List<String> ids = List.copyOf(positions.keySet());
    return new PadMap(
        "Saltmarsh S2",
        random.nextBoolean() ? "" : "B, \"second\"",
        Map.of(Side.UPPER, "radio board", Side.LOWER, "main board"),
        List.of(
            new Interposer(
                "standard",
                0.5 + random.nextDouble(),
                random.nextBoolean(),
                new Ohms(random.nextDouble()),
                List.of(
                    new Tie(Tie.Where.TOP, ids.subList(0, 2), new Ohms(random.nextDouble())),
                    new Tie(Tie.Where.BOTTOM, ids.subList(0, 3), new Ohms(0))))),
        positions,
        nets,
        loads(random, nets),
        points(nets),
        new Limits(
            new Ohms(1 + random.nextDouble()),
            new Ohms(0.5),
            random.nextBoolean() ? Map.of() : Map.of(ids.get(1), new Ohms(0.3))),
        references(random, nets));
  }

  private static Net net(RandomGenerator random, NetId id) {
    return new Net(
        id,
        pick(random, List.of(Role.values())),
        pick(random, FUNCTIONS),
        random.nextBoolean()
            ? Optional.empty()
            : Optional.of(new Volts(random.nextDouble() * 5 + 0.1)),
        random.nextBoolean(),
        random.nextBoolean() ? Defaults.TRACE : new Ohms(random.nextDouble()));
  }

  private static Map<String, Position> positions(RandomGenerator random, Map<NetId, Net> nets) {
    Map<String, Position> positions = new LinkedHashMap<>();
    int count = 3 + random.nextInt(30);
    for (int i = 0; i < count; i++) {
      String id = pick(random, List.of("N", "=", "'", "@A")) + i;
      positions.put(
          id,
          new Position(
              id,
              i * 0.5 - 3 + random.nextDouble() * 0.2,
              random.nextDouble() - 0.5,
              netName(random, nets, Side.UPPER),
              netName(random, nets, Side.LOWER)));
    }
    return positions;
  }

  private static String netName(RandomGenerator random, Map<NetId, Net> nets, Side side) {
    List<String> names = new ArrayList<>();
    nets.keySet().stream().filter(id -> id.side() == side).forEach(id -> names.add(id.name()));
    return pick(random, names);
  }

  /** A load on every net, so that none is idle. */
  private static List<Load> loads(RandomGenerator random, Map<NetId, Net> nets) {
    List<Load> loads = new ArrayList<>();
    for (NetId id : nets.keySet()) {
      String inner = "inner" + loads.size();
      loads.add(new Load.Inductor(id.side(), id.name(), inner, new Ohms(random.nextDouble())));
      loads.add(
          switch (random.nextInt(4)) {
            case 0 -> new Load.Resistor(id.side(), inner, id.name(), new Ohms(random.nextDouble()));
            case 1 -> new Load.Junction(id.side(), inner, id.name(), Load.Material.SCHOTTKY);
            case 2 -> new Load.Capacitor(id.side(), inner, id.name(), 1e-12 + random.nextDouble());
            default -> new Load.Unknown(id.side(), inner, id.name());
          });
    }
    return loads;
  }

  private static Map<String, AccessPoint> points(Map<NetId, Net> nets) {
    Map<String, AccessPoint> points = new LinkedHashMap<>();
    for (NetId id : nets.keySet()) {
      String point = "P" + points.size();
      points.put(point, new AccessPoint(point, id, "beside C" + points.size()));
    }
    return points;
  }

  private static List<Reference> references(RandomGenerator random, Map<NetId, Net> nets) {
    List<Reference> references = new ArrayList<>();
    for (NetId id : nets.keySet()) {
      references.add(
          new Reference.Drop(
              id,
              List.of(new Amps(1e-5), new Amps(1e-5 + random.nextDouble())),
              List.of(new Volts(random.nextDouble()), new Volts(random.nextDouble())),
              new Volts(random.nextDouble()),
              new Volts(random.nextDouble()),
              1 + random.nextInt(9)));
      references.add(new Reference.ToGround(id, new Ohms(random.nextDouble() * 1e7), 0.1, 3));
    }
    return references;
  }

  private static <T> T pick(RandomGenerator random, List<T> from) {
    return from.get(random.nextInt(from.size()));
  }
}
