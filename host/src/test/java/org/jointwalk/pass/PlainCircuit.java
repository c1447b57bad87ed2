package org.jointwalk.pass;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Face;
import org.jointwalk.stack.Link;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Role;

/**
 * The resistances between what the probes touch, exactly, and for each contact the way to the
 * nearest junction. Every net that has a way to ground has the same junction. Chains are drawn
 * together first, so that a ring of 420 positions takes tens of milliseconds. Immutable.
 */
final class PlainCircuit {

  private static final double LEAST_OHMS = 1e-6;

  /** Beyond this a junction is another net's. */
  private static final double OWN_OHMS = 1e4;

  private final Assembly assembly;
  private final Map<Node, Map<Node, Double>> siemens = new LinkedHashMap<>();
  private final Set<Node> junctions = new LinkedHashSet<>();
  private final Map<Node, Part> parts = new HashMap<>();

  private record Part(Map<Node, Integer> places, DMatrixRMaj inverse) {}

  /**
   * @param scale by which every resistance of a path is multiplied but those that the map tells;
   *     loads and bridges keep theirs
   */
  PlainCircuit(Assembly assembly, Defects defects, double scale) {
    this.assembly = assembly;
    for (Link link : assembly.links()) {
      Condition condition = link.component().flatMap(defects::of).orElse(null);
      if (condition instanceof Condition.High high) {
        connect(link.a(), link.b(), scale * high.ohms().value());
      } else if (!(condition instanceof Condition.Open)) {
        // Vias and ties are in the map, which is scaled by itself.
        boolean mapped = link.component().filter(c -> !(c instanceof Component.Via)).isEmpty();
        connect(link.a(), link.b(), (mapped ? 1 : scale) * link.ohms().value());
      }
    }
    for (Load load : assembly.loads()) {
      if (load instanceof Load.Resistor resistor) {
        connect(board(load, load.from()), board(load, load.to()), resistor.ohms().value());
      } else if (load instanceof Load.Inductor coil) {
        connect(board(load, load.from()), board(load, load.to()), coil.ohms().value());
      }
    }
    defects.conditions().forEach(this::layShort);
    for (Net net : assembly.map().nets().values()) {
      if (assembly.setUp().boards().contains(net.id().side())
          && net.dcPath()
          && (net.role() == Role.SIGNAL || net.role() == Role.RAIL)) {
        junctions.add(Node.OnBoard.of(net.id()));
      }
    }
    drawTogether();
  }

  private static Node board(Load load, String name) {
    return new Node.OnBoard(load.side(), name);
  }

  private void layShort(Component component, Condition condition) {
    if (component instanceof Component.Bridge bridge
        && condition instanceof Condition.Bridged bridged) {
      Face face =
          assembly.setUp().interposer() ? Face.landOf(bridge.side()) : Face.padOf(bridge.side());
      if (assembly.setUp().interposer() || assembly.setUp().boards().contains(bridge.side())) {
        connect(
            new Node.Land(bridge.a(), face),
            new Node.Land(bridge.b(), face),
            bridged.ohms().value());
      }
    } else if (component instanceof Component.NetOf net
        && condition instanceof Condition.Shorted shorted
        && assembly.setUp().boards().contains(net.net().side())) {
      connect(
          Node.OnBoard.of(net.net()),
          new Node.OnBoard(net.net().side(), shorted.to()),
          shorted.ohms().value());
    }
  }

  private void connect(Node a, Node b, double ohms) {
    double g = 1 / Math.max(ohms, LEAST_OHMS);
    siemens.computeIfAbsent(a, k -> new LinkedHashMap<>()).merge(b, g, Double::sum);
    siemens.computeIfAbsent(b, k -> new LinkedHashMap<>()).merge(a, g, Double::sum);
  }

  private Map<Node, Double> around(Node node) {
    return siemens.getOrDefault(node, Map.of());
  }

  /** Takes out nodes that nobody touches and that have one neighbour or two. */
  private void drawTogether() {
    Set<Node> kept = new HashSet<>(junctions);
    assembly.contacts().forEach(c -> kept.add(assembly.branch(c).touched()));
    Deque<Node> queue = new ArrayDeque<>(siemens.keySet());
    while (!queue.isEmpty()) {
      Node node = queue.remove();
      Map<Node, Double> around = around(node);
      if (kept.contains(node) || around.isEmpty() || around.size() > 2) {
        continue;
      }
      List<Map.Entry<Node, Double>> ends = new ArrayList<>(Map.copyOf(around).entrySet());
      siemens.remove(node);
      ends.forEach(e -> siemens.getOrDefault(e.getKey(), new HashMap<>()).remove(node));
      if (ends.size() == 2) {
        double ohms = 1 / ends.get(0).getValue() + 1 / ends.get(1).getValue();
        connect(ends.get(0).getKey(), ends.get(1).getKey(), ohms);
      }
      ends.forEach(e -> queue.add(e.getKey()));
    }
  }

  private Part part(Node start) {
    Part known = parts.get(start);
    if (known != null) {
      return known;
    }
    Map<Node, Integer> places = new LinkedHashMap<>(Map.of(start, 0));
    List<Node> queue = new ArrayList<>(List.of(start));
    for (int i = 0; i < queue.size(); i++) {
      for (Node next : around(queue.get(i)).keySet()) {
        if (places.putIfAbsent(next, places.size()) == null) {
          queue.add(next);
        }
      }
    }
    int n = places.size() - 1;
    DMatrixRMaj laplacian = new DMatrixRMaj(n, n);
    places.forEach(
        (node, i) ->
            around(node)
                .forEach(
                    (other, g) -> {
                      int j = places.getOrDefault(other, 0);
                      if (i > 0) {
                        laplacian.add(i - 1, i - 1, g);
                        if (j > 0) {
                          laplacian.add(i - 1, j - 1, -g);
                        }
                      }
                    }));
    if (n > 0) {
      CommonOps_DDRM.invert(laplacian);
    }
    Part part = new Part(places, laplacian);
    queue.forEach(node -> parts.put(node, part));
    return part;
  }

  private double ohms(Node a, Node b) {
    Part part = part(a);
    Integer i = part.places().get(a);
    Integer j = part.places().get(b);
    if (i == null || j == null) {
      return Double.POSITIVE_INFINITY;
    }
    DMatrixRMaj m = part.inverse();
    return Math.max(0, entry(m, i, i) + entry(m, j, j) - 2 * entry(m, i, j));
  }

  private static double entry(DMatrixRMaj m, int i, int j) {
    return i == 0 || j == 0 ? 0 : m.get(i - 1, j - 1);
  }

  /** Between two tips; infinite when nothing joins them. */
  double ohms(Contact a, Contact b) {
    return ohms(assembly.branch(a).touched(), assembly.branch(b).touched());
  }

  /** What a junction step meets: what lies before the nearest junction, and what lies beside it. */
  record Way(double series, double beside, boolean junction) {}

  /** The way of a current from ground into a contact, or the other way round. */
  Way way(Contact ground, Contact subject) {
    Node from = assembly.branch(subject).touched();
    Node nearest = null;
    double series = OWN_OHMS;
    for (Node node : part(from).places().keySet()) {
      if (junctions.contains(node) && ohms(from, node) < series) {
        nearest = node;
        series = ohms(from, node);
      }
    }
    Node earth = assembly.branch(ground).touched();
    return nearest == null
        ? new Way(0, ohms(from, earth), false)
        : new Way(series, ohms(nearest, earth), true);
  }
}
