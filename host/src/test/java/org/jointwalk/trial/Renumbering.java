package org.jointwalk.trial;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.random.RandomGenerator;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.AccessPoint;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Limits;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Tie;

/** Other names for the positions of a map, whose parts are written in another order. */
public final class Renumbering {

  private final Map<String, String> names = new LinkedHashMap<>();
  private final PadMap map;

  /** Renumbers a map at random. */
  public Renumbering(PadMap old, RandomGenerator random) {
    List<String> order = shuffled(old.positions().keySet(), random);
    for (String id : order) {
      names.put(id, String.format(Locale.ROOT, "R%03d", names.size()));
    }
    Map<String, Position> positions = new LinkedHashMap<>();
    for (String id : shuffled(old.positions().keySet(), random)) {
      Position p = old.position(id);
      positions.put(of(id), new Position(of(id), p.xMm(), p.yMm(), p.upperNet(), p.lowerNet()));
    }
    Map<NetId, Net> nets = new LinkedHashMap<>();
    shuffled(old.nets().keySet(), random).forEach(id -> nets.put(id, old.net(id)));
    Map<String, AccessPoint> points = new LinkedHashMap<>();
    for (AccessPoint point : shuffled(old.points().values(), random)) {
      points.put(point.id(), point);
    }
    Map<String, Ohms> overrides = new LinkedHashMap<>();
    old.limits().overrides().forEach((id, ohms) -> overrides.put(of(id), ohms));
    map =
        new PadMap(
            old.device(),
            old.revision(),
            old.boardNames(),
            old.interposers().stream().map(i -> of(i, random)).toList(),
            positions,
            nets,
            shuffled(old.loads(), random),
            points,
            new Limits(old.limits().signal(), old.limits().power(), overrides),
            shuffled(old.references(), random));
  }

  private static <T> List<T> shuffled(Iterable<T> some, RandomGenerator random) {
    List<T> list = new ArrayList<>();
    some.forEach(list::add);
    for (int i = list.size() - 1; i > 0; i--) {
      Collections.swap(list, i, random.nextInt(i + 1));
    }
    return list;
  }

  private Interposer of(Interposer i, RandomGenerator random) {
    List<Tie> ties = new ArrayList<>();
    for (Tie tie : shuffled(i.ties(), random)) {
      ties.add(
          new Tie(
              tie.where(),
              shuffled(tie.positions(), random).stream().map(this::of).toList(),
              tie.ohms()));
    }
    return new Interposer(i.variant(), i.thicknessMm(), i.mirrored(), i.via(), ties);
  }

  /** The renumbered map. */
  public PadMap map() {
    return map;
  }

  /** The new name of a position. */
  public String of(String id) {
    String name = names.get(id);
    if (name == null) {
      throw new IllegalArgumentException("no position " + id);
    }
    return name;
  }

  /** The renumbered defects. */
  public Defects of(Defects defects) {
    Map<Component, Condition> conditions = new LinkedHashMap<>();
    defects.conditions().forEach((c, condition) -> conditions.put(of(c), condition));
    return new Defects(conditions);
  }

  private Component of(Component component) {
    if (component instanceof Component.Pad pad) {
      return new Component.Pad(pad.side(), of(pad.position()));
    }
    if (component instanceof Component.Joint joint) {
      return new Component.Joint(joint.side(), of(joint.position()));
    }
    if (component instanceof Component.Via via) {
      return new Component.Via(of(via.position()));
    }
    if (component instanceof Component.Bridge bridge) {
      return Component.Bridge.between(bridge.side(), of(bridge.a()), of(bridge.b()));
    }
    return component;
  }

  /** The renumbered contact. */
  public Contact of(Contact contact) {
    return contact instanceof Contact.Pad pad
        ? new Contact.Pad(pad.plate(), of(pad.position()))
        : contact;
  }
}
