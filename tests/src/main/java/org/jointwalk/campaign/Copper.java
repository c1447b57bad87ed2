package org.jointwalk.campaign;

import java.util.LinkedHashMap;
import java.util.Map;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Face;
import org.jointwalk.stack.Link;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Plate;

/**
 * Which nodes of a stack are joined by metal, loads of the boards left out. Not thread-safe; grows
 * as joins are added.
 */
final class Copper {

  private final Assembly assembly;
  private final Map<Node, Node> parent = new LinkedHashMap<>();

  /** The conductors that are in the fixture, without those that are open. */
  Copper(Assembly assembly, Defects defects) {
    this.assembly = assembly;
    for (Link link : assembly.links()) {
      boolean open =
          link.component()
              .flatMap(defects::of)
              .filter(Condition.Open.class::isInstance)
              .isPresent();
      if (!open) {
        join(link.a(), link.b());
      }
    }
  }

  /** Adds every bridge and short among the faults but one. */
  Copper withJoins(Defects defects, Component but) {
    defects
        .conditions()
        .forEach(
            (component, condition) -> {
              if (!component.equals(but)) {
                add(component, condition);
              }
            });
    return this;
  }

  /** Adds every bridge and short among the faults. */
  Copper withJoins(Defects defects) {
    defects.conditions().forEach(this::add);
    return this;
  }

  private void add(Component component, Condition condition) {
    if (isJoin(component, condition)) {
      join(end(component, condition, true), end(component, condition, false));
    }
  }

  /** Whether a fault joins what should be apart. */
  static boolean isJoin(Component component, Condition condition) {
    return component instanceof Component.Bridge || condition instanceof Condition.Shorted;
  }

  /** Whether the two ends of a bridge or short are joined. */
  boolean joins(Component component, Condition condition) {
    return joined(end(component, condition, true), end(component, condition, false));
  }

  private Node end(Component component, Condition condition, boolean first) {
    if (component instanceof Component.Bridge bridge) {
      Face face =
          assembly.setUp().interposer() ? Face.landOf(bridge.side()) : Face.padOf(bridge.side());
      return new Node.Land(first ? bridge.a() : bridge.b(), face);
    }
    if (component instanceof Component.NetOf netOf
        && condition instanceof Condition.Shorted shorted) {
      NetId net = netOf.net();
      return new Node.OnBoard(net.side(), first ? net.name() : shorted.to());
    }
    throw new IllegalArgumentException(component + " joins nothing");
  }

  /** Joins what the plates touch at two positions. */
  void joinTouched(String a, String b) {
    for (Plate plate : Plate.values()) {
      assembly
          .setUp()
          .touches(plate)
          .ifPresent(face -> join(new Node.Land(a, face), new Node.Land(b, face)));
    }
  }

  /** Whether what a plate touches at two positions is joined. */
  boolean joinedTouched(String a, String b) {
    for (Plate plate : Plate.values()) {
      boolean here =
          assembly
              .setUp()
              .touches(plate)
              .filter(face -> joined(new Node.Land(a, face), new Node.Land(b, face)))
              .isPresent();
      if (here) {
        return true;
      }
    }
    return false;
  }

  void join(Node a, Node b) {
    parent.put(root(a), root(b));
  }

  boolean joined(Node a, Node b) {
    return root(a).equals(root(b));
  }

  /** Where a contact of this set-up lies. */
  Node touched(Contact contact) {
    return assembly.branch(contact).touched();
  }

  private Node root(Node node) {
    Node at = node;
    Node next = parent.getOrDefault(at, at);
    while (!next.equals(at)) {
      Node beyond = parent.getOrDefault(next, next);
      parent.put(at, beyond);
      at = next;
      next = beyond;
    }
    return at;
  }
}
