package org.jointwalk.files;

import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Supplier;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.AccessPoint;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Limits;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Side;

/** A pad map to text and back, section by section. Stateless. */
final class PadMapText {

  private static final List<String> KEYS =
      List.of(
          "format",
          "device",
          "revision",
          "boards",
          "interposers",
          "limits",
          "positions",
          "nets",
          "loads",
          "access_points",
          "references",
          "$schema");

  private PadMapText() {}

  static Supplier<PadMap> read(Field root) {
    Faults faults = root.faults();
    root.only(KEYS);
    Known known = new Known();
    String device = root.at("device").words();
    String revision = root.at("revision").text();
    Map<Side, String> boards = boards(root.at("boards"));
    Map<NetId, Net> nets = NetText.read(root.at("nets"), known);
    Map<String, Position> positions = positions(root.at("positions"), known);
    List<Interposer> interposers = InterposerText.read(root.at("interposers"), known);
    Limits limits = limits(root.at("limits"), known);
    List<Load> loads = LoadText.read(root.at("loads"), known);
    Map<String, AccessPoint> points = points(root.at("access_points"), known);
    List<Reference> references = ReferenceText.read(root.at("references"), known);
    Idle.check(nets, positions.values(), points.values(), loads, faults);
    return () -> {
      PadMap map =
          new PadMap(
              device,
              revision,
              boards,
              interposers,
              positions,
              nets,
              loads,
              points,
              limits,
              references);
      PadMapAdvice.give(map, faults);
      return map;
    };
  }

  private static Map<Side, String> boards(Field field) {
    field.only(Words.all(Side.class));
    Map<Side, String> names = new EnumMap<>(Side.class);
    for (Side side : Side.values()) {
      names.put(side, field.at(Words.of(side)).words());
    }
    return names;
  }

  private static Map<String, Position> positions(Field field, Known known) {
    Map<String, Position> positions = new LinkedHashMap<>();
    RingCheck ring = new RingCheck(field.faults());
    List<Field> items = field.items();
    if ((items.isEmpty() && field.isList()) || items.size() > RingCheck.MOST_POSITIONS) {
      field.error(
          "this is no ring of positions",
          "1 to " + RingCheck.MOST_POSITIONS + " positions",
          "Write one entry for each position of the ring");
      return positions;
    }
    for (Field item : items) {
      item.only(List.of("id", "x_mm", "y_mm", "upper", "lower"));
      Position position =
          new Position(
              item.at("id").id(),
              item.at("x_mm").finite(),
              item.at("y_mm").finite(),
              known.net(Side.UPPER, item.at("upper")).name(),
              known.net(Side.LOWER, item.at("lower")).name());
      boolean named = !position.id().equals(Field.STAND_IN);
      if (named && !known.addPosition(position.id())) {
        item.at("id")
            .error(
                "the map has this position already",
                "each position once",
                "Rename one; the other is at "
                    + field.faults().placeOf(RingCheck.thing(position.id())));
      }
      positions.putIfAbsent(position.id(), position);
      field.faults().stands(RingCheck.thing(position.id()), item::place);
      if (named && item.at("x_mm").isFinite() && item.at("y_mm").isFinite()) {
        ring.add(position, item.at("x_mm")::place);
      }
    }
    return positions;
  }

  private static Limits limits(Field field, Known known) {
    if (!field.given()) {
      return new Limits(Defaults.SIGNAL_LIMIT, Defaults.POWER_LIMIT, Map.of());
    }
    field.only(List.of("signal_ohms", "power_ohms", "overrides_ohms"));
    Map<String, Ohms> overrides = new HashMap<>();
    Field own = field.at("overrides_ohms");
    if (own.given()) {
      own.members()
          .forEach(
              (id, limit) -> {
                known.position(limit, id);
                overrides.put(id, new Ohms(limit.positive()));
              });
    }
    return new Limits(
        field.at("signal_ohms").maybe(Field::positive).map(Ohms::new).orElse(Defaults.SIGNAL_LIMIT),
        field.at("power_ohms").maybe(Field::positive).map(Ohms::new).orElse(Defaults.POWER_LIMIT),
        overrides);
  }

  private static Map<String, AccessPoint> points(Field field, Known known) {
    Map<String, AccessPoint> points = new LinkedHashMap<>();
    Set<String> ids = new HashSet<>();
    for (Field item : field.given() ? field.items() : List.<Field>of()) {
      item.only(List.of("id", "board", "net", "place"));
      String id = item.at("id").id();
      NetId net = known.net(item.at("board").word(Side.class), item.at("net"));
      if (!id.equals(Field.STAND_IN) && !ids.add(id)) {
        item.at("id")
            .error("the map has this access point already", "each once", "Rename one of the two");
      }
      points.put(id, new AccessPoint(id, net, item.at("place").words()));
    }
    return points;
  }

  static String write(PadMap map) {
    JsonOut out =
        JsonOut.airy()
            .objectInLines()
            .with("format", PadMapFile.FORMAT)
            .with("device", map.device())
            .with("revision", map.revision());
    out.key("boards").object();
    for (Side side : Side.values()) {
      out.with(Words.of(side), map.boardNames().getOrDefault(side, ""));
    }
    out.end().key("interposers");
    InterposerText.write(out, map.interposers());
    out.key("limits");
    write(out, map.limits());
    out.key("positions").arrayInLines();
    for (Position p : map.positions().values()) {
      out.object()
          .with("id", p.id())
          .with("x_mm", p.xMm())
          .with("y_mm", p.yMm())
          .with("upper", p.upperNet())
          .with("lower", p.lowerNet())
          .end();
    }
    out.end().key("nets");
    NetText.write(out, map.nets());
    out.key("loads");
    LoadText.write(out, map.loads());
    out.key("access_points").arrayInLines();
    for (AccessPoint point : map.points().values()) {
      out.object()
          .with("id", point.id())
          .with("board", point.net().side())
          .with("net", point.net().name())
          .with("place", point.place())
          .end();
    }
    out.end().key("references");
    ReferenceText.write(out, map.references());
    return out.end() + "\n";
  }

  private static void write(JsonOut out, Limits limits) {
    out.object()
        .with("signal_ohms", limits.signal().value())
        .with("power_ohms", limits.power().value());
    if (!limits.overrides().isEmpty()) {
      out.key("overrides_ohms").object();
      // Sorted, since the record keeps no order and a file must not change by itself.
      new TreeMap<>(limits.overrides()).forEach((id, ohms) -> out.with(id, ohms.value()));
      out.end();
    }
    out.end();
  }
}
