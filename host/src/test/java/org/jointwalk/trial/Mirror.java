package org.jointwalk.trial;

import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jointwalk.stack.AccessPoint;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;

/** Turns a stack upside down: sides, faces and plates change places, and nothing else. */
public final class Mirror {

  private Mirror() {}

  /** The map of the turned stack. */
  public static PadMap of(PadMap map) {
    Map<String, Position> positions = new LinkedHashMap<>();
    map.positions()
        .forEach(
            (id, p) ->
                positions.put(id, new Position(id, p.xMm(), p.yMm(), p.lowerNet(), p.upperNet())));
    Map<NetId, Net> nets = new LinkedHashMap<>();
    map.nets()
        .values()
        .forEach(
            n ->
                nets.put(
                    of(n.id()),
                    new Net(
                        of(n.id()), n.role(), n.function(), n.nominal(), n.dcPath(), n.trace())));
    Map<String, AccessPoint> points = new LinkedHashMap<>();
    map.points().forEach((id, p) -> points.put(id, new AccessPoint(id, of(p.net()), p.place())));
    Map<Side, String> names = new EnumMap<>(Side.class);
    map.boardNames().forEach((side, name) -> names.put(side.other(), name));
    return new PadMap(
        map.device(),
        map.revision(),
        names,
        map.interposers().stream().map(Mirror::of).toList(),
        positions,
        nets,
        map.loads().stream().map(Mirror::of).toList(),
        points,
        map.limits(),
        map.references().stream().map(Mirror::of).toList());
  }

  private static NetId of(NetId id) {
    return new NetId(id.side().other(), id.name());
  }

  private static Interposer of(Interposer i) {
    return new Interposer(
        i.variant(),
        i.thicknessMm(),
        i.mirrored(),
        i.via(),
        i.ties().stream().map(t -> new Tie(of(t.where()), t.positions(), t.ohms())).toList());
  }

  private static Tie.Where of(Tie.Where where) {
    return switch (where) {
      case TOP -> Tie.Where.BOTTOM;
      case BOTTOM -> Tie.Where.TOP;
      case EDGE -> Tie.Where.EDGE;
    };
  }

  private static Load of(Load load) {
    Side side = load.side().other();
    if (load instanceof Load.Resistor r) {
      return new Load.Resistor(side, r.from(), r.to(), r.ohms());
    }
    if (load instanceof Load.Junction j) {
      return new Load.Junction(side, j.from(), j.to(), j.material());
    }
    if (load instanceof Load.Inductor l) {
      return new Load.Inductor(side, l.from(), l.to(), l.ohms());
    }
    return load instanceof Load.Capacitor c
        ? new Load.Capacitor(side, c.from(), c.to(), c.farads())
        : new Load.Unknown(side, load.from(), load.to());
  }

  private static Reference of(Reference reference) {
    if (reference instanceof Reference.Drop d) {
      return new Reference.Drop(of(d.net()), d.amps(), d.volts(), d.sd(), d.growthSd(), d.boards());
    }
    Reference.ToGround g = (Reference.ToGround) reference;
    return new Reference.ToGround(of(g.net()), g.ohms(), g.relativeSd(), g.boards());
  }

  /** The turned defects. */
  public static Defects of(Defects defects) {
    Map<Component, Condition> conditions = new LinkedHashMap<>();
    defects.conditions().forEach((c, condition) -> conditions.put(of(c), condition));
    return new Defects(conditions);
  }

  private static Component of(Component component) {
    if (component instanceof Component.Pad pad) {
      return new Component.Pad(pad.side().other(), pad.position());
    }
    if (component instanceof Component.Joint joint) {
      return new Component.Joint(joint.side().other(), joint.position());
    }
    if (component instanceof Component.Bridge bridge) {
      return new Component.Bridge(bridge.side().other(), bridge.a(), bridge.b());
    }
    if (component instanceof Component.NetOf net) {
      return new Component.NetOf(of(net.net()));
    }
    return component;
  }

  /** The same probe of the turned plates. */
  public static Contact of(Contact contact) {
    return contact instanceof Contact.Pad pad
        ? new Contact.Pad(pad.plate() == Plate.OVER ? Plate.UNDER : Plate.OVER, pad.position())
        : contact;
  }

  /** The set-up in which the turned parts lie. */
  public static String setUp(String name) {
    return switch (name) {
      case "upper-board" -> "lower-board";
      case "lower-board" -> "upper-board";
      case "interposer-on-lower" -> "interposer-on-upper";
      case "interposer-on-upper" -> "interposer-on-lower";
      default -> name;
    };
  }
}
