package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Path;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Ratings;
import org.jointwalk.fixture.Switching;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.AccessPoint;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Limits;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.jointwalk.stack.Tie;

/**
 * Made-up stacks of any size for tests. Position k lies on a circle. Out of every ten positions
 * three are ground, two a rail, one a signal pair's second pad, four signals of their own; each
 * signal has a junction from ground and one to the rail on both boards.
 */
final class Rings {

  static final int RAILS = 2;

  private Rings() {}

  static String id(int k) {
    return String.format(java.util.Locale.ROOT, "R%04d", k);
  }

  static Contact over(int k) {
    return new Contact.Pad(Plate.OVER, id(k));
  }

  static Contact under(int k) {
    return new Contact.Pad(Plate.UNDER, id(k));
  }

  static boolean isGround(int k) {
    return k % 10 < 3;
  }

  static String net(int k) {
    int group = k / 10;
    return switch (k % 10) {
      case 0, 1, 2 -> "GND";
      case 3, 4 -> "RAIL" + group % RAILS;
      case 5, 6 -> "PAIR" + group;
      default -> "SIG" + k;
    };
  }

  static PadMap map(int positions) {
    Map<String, Position> ring = new LinkedHashMap<>();
    Map<NetId, Net> nets = new LinkedHashMap<>();
    List<Load> loads = new ArrayList<>();
    Map<String, AccessPoint> points = new LinkedHashMap<>();
    for (int k = 0; k < positions; k++) {
      double angle = 2 * Math.PI * k / positions;
      String name = net(k);
      ring.put(id(k), new Position(id(k), 20 * Math.cos(angle), 20 * Math.sin(angle), name, name));
      for (Side side : Side.values()) {
        NetId net = new NetId(side, name);
        if (!nets.containsKey(net)) {
          nets.put(net, net(net));
          points.put(point(net), new AccessPoint(point(net), net, "somewhere"));
          load(net, loads);
        }
      }
    }
    Interposer plain =
        new Interposer(
            "plain",
            1.0,
            false,
            new Ohms(0.001),
            List.of(new Tie(Tie.Where.EDGE, List.of(id(0), id(1)), new Ohms(0.0005))));
    return new PadMap(
        "Test ring",
        "1",
        Map.of(Side.UPPER, "top", Side.LOWER, "main"),
        List.of(plain),
        ring,
        nets,
        loads,
        points,
        new Limits(new Ohms(2), new Ohms(0.5), Map.of()),
        List.of());
  }

  static String point(NetId net) {
    return (net.side() == Side.UPPER ? "U_" : "L_") + net.name();
  }

  private static Net net(NetId id) {
    Role role =
        id.name().equals("GND")
            ? Role.GROUND
            : id.name().startsWith("RAIL") ? Role.RAIL : Role.SIGNAL;
    return new Net(
        id,
        role,
        role == Role.SIGNAL ? "touch" : "unknown",
        role == Role.RAIL ? Optional.of(new Volts(1.8)) : Optional.empty(),
        true,
        new Ohms(0.004));
  }

  private static void load(NetId id, List<Load> loads) {
    Side side = id.side();
    if (id.name().startsWith("RAIL")) {
      loads.add(new Load.Resistor(side, id.name(), "GND", new Ohms(220)));
      loads.add(new Load.Capacitor(side, id.name(), "GND", 10e-6));
      loads.add(new Load.Junction(side, "GND", id.name(), Load.Material.SILICON));
    } else if (!id.name().equals("GND")) {
      String pin = id.name() + "_PIN";
      loads.add(new Load.Resistor(side, id.name(), pin, new Ohms(22)));
      loads.add(new Load.Junction(side, "GND", pin, Load.Material.SILICON));
      loads.add(new Load.Junction(side, pin, "RAIL0", Load.Material.SILICON));
    }
  }

  static FixtureMap fixture(PadMap map, Kelvin kelvin, Switching switching) {
    List<Channel> channels = new ArrayList<>();
    for (Plate plate : Plate.values()) {
      for (String id : map.positions().keySet()) {
        channels.add(new Channel(channels.size(), new Contact.Pad(plate, id), Channel.Use.FORCE));
      }
    }
    for (String point : map.points().keySet()) {
      channels.add(new Channel(channels.size(), new Contact.Point(point), Channel.Use.FORCE));
    }
    return new FixtureMap(
        "bench", map.device(), capabilities(kelvin, switching), channels, Set.of());
  }

  static Capabilities capabilities(Kelvin kelvin, Switching switching) {
    Map<Kind, Range> ranges = new EnumMap<>(Kind.class);
    ranges.put(Kind.ALL_OPEN, range(1e-6, 0.05, 1e-9));
    ranges.put(Kind.RESIDUAL, range(1e-6, 5, 1e-9));
    ranges.put(Kind.RESIDUAL_LOADED, range(1e-6, 5, 1e-9));
    ranges.put(Kind.LOW_LEVEL, range(0.01, 0.02, 1e-7));
    ranges.put(Kind.NORMAL_LEVEL, range(0.1, 0.2, 1e-6));
    ranges.put(Kind.ISOLATION, range(1e-3, 0.05, 5e-9));
    ranges.put(Kind.JUNCTION, range(1e-3, 1.0, 1e-8));
    return new Capabilities(
        "virtual-7",
        "1.0",
        "2024-A",
        switching,
        kelvin,
        1,
        1,
        ranges,
        new Path(new Ohms(0.5), new Ohms(0.4), new Ohms(0.003), new Amps(1e-9), 0.0005, 0.0003),
        new ProbeQuality(new Ohms(0.05), new Ohms(0.01)),
        new Ratings(new Volts(5), 10_000_000, 2));
  }

  private static Range range(double amps, double volts, double currentNoise) {
    return new Range(
        new Amps(amps),
        new Volts(volts),
        1e-3,
        new Volts(2e-6),
        new Volts(5e-6),
        new Amps(currentNoise),
        0.002);
  }

  static Specimen specimen(long seed, Defects defects, Specimen.Trouble... troubles) {
    return new Specimen("plain", seed, defects, List.of(), List.of(troubles));
  }
}
