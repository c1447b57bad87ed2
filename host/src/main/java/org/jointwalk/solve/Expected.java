package org.jointwalk.solve;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;

/**
 * What a good board conducts between two of its nets at a few millivolt: its resistances, and a
 * safe bound for Schottky junctions. Silicon junctions do not conduct there. Built once per pass;
 * cubic in the nodes that hang together by resistance. Immutable.
 */
final class Expected {

  /** Conductance below which two nets count as apart, in siemens. */
  static final double SEEN = 1e-5;

  /** A large Schottky junction near zero volt conducts less than this many ohm would. */
  private static final double SCHOTTKY_OHMS = 1000;

  private static final double SMALLEST_OHMS = 1e-3;

  private final Map<Node, Integer> place = new LinkedHashMap<>();
  private final Map<Node, Integer> part = new LinkedHashMap<>();
  private final Map<Integer, DMatrixRMaj> inverse = new LinkedHashMap<>();
  private final Map<NetId, Double> referenceOhms = new LinkedHashMap<>();
  private final Set<Node> ground = new LinkedHashSet<>();

  private record Wire(Node a, Node b, double siemens) {}

  Expected(Assembly assembly) {
    List<Wire> wires =
        assembly.loads().stream().filter(Expected::conducts).map(Expected::wire).toList();
    Map<Node, Set<Node>> next = new LinkedHashMap<>();
    for (Wire wire : wires) {
      next.computeIfAbsent(wire.a(), k -> new LinkedHashSet<>()).add(wire.b());
      next.computeIfAbsent(wire.b(), k -> new LinkedHashSet<>()).add(wire.a());
    }
    int parts = 0;
    for (Node start : next.keySet()) {
      if (!part.containsKey(start)) {
        factor(parts++, spread(start, next), wires);
      }
    }
    assembly.map().nets().values().stream()
        .filter(n -> n.role() == Role.GROUND)
        .forEach(n -> ground.add(Node.OnBoard.of(n.id())));
    for (Reference reference : assembly.map().references()) {
      if (reference instanceof Reference.ToGround toGround) {
        referenceOhms.put(toGround.net(), toGround.ohms().value());
      }
    }
  }

  private static boolean conducts(Load load) {
    return load instanceof Load.Resistor
        || load instanceof Load.Inductor
        || (load instanceof Load.Junction j && j.material() == Load.Material.SCHOTTKY);
  }

  private static Wire wire(Load load) {
    double ohms = SCHOTTKY_OHMS;
    if (load instanceof Load.Resistor resistor) {
      ohms = resistor.ohms().value();
    } else if (load instanceof Load.Inductor inductor) {
      ohms = inductor.ohms().value();
    }
    return new Wire(
        new Node.OnBoard(load.side(), load.from()),
        new Node.OnBoard(load.side(), load.to()),
        1 / Math.max(ohms, SMALLEST_OHMS));
  }

  private static Set<Node> spread(Node start, Map<Node, Set<Node>> next) {
    Set<Node> seen = new LinkedHashSet<>(Set.of(start));
    List<Node> queue = new java.util.ArrayList<>(seen);
    for (int i = 0; i < queue.size(); i++) {
      for (Node other : next.getOrDefault(queue.get(i), Set.of())) {
        if (seen.add(other)) {
          queue.add(other);
        }
      }
    }
    return seen;
  }

  private void factor(int number, Set<Node> nodes, List<Wire> wires) {
    int n = 0;
    for (Node node : nodes) {
      part.put(node, number);
      place.put(node, n++);
    }
    // The last node is held at zero; the inverse of the rest gives every effective resistance.
    DMatrixRMaj laplacian = new DMatrixRMaj(n - 1, n - 1);
    for (Wire wire : wires) {
      Integer a = place.get(wire.a());
      Integer b = place.get(wire.b());
      if (a == null || b == null || !nodes.contains(wire.a()) || a.equals(b)) {
        continue;
      }
      if (a < n - 1) {
        laplacian.add(a, a, wire.siemens());
      }
      if (b < n - 1) {
        laplacian.add(b, b, wire.siemens());
      }
      if (a < n - 1 && b < n - 1) {
        laplacian.add(a, b, -wire.siemens());
        laplacian.add(b, a, -wire.siemens());
      }
    }
    CommonOps_DDRM.invert(laplacian);
    inverse.put(number, laplacian);
  }

  /** Conductance between two nodes in siemens; zero when nothing joins them. */
  double between(Node a, Node b) {
    double byGround = Math.max(byReference(a, b), byReference(b, a));
    if (byGround > 0) {
      return byGround;
    }
    Integer partA = part.get(a);
    if (partA == null || !partA.equals(part.get(b)) || a.equals(b)) {
      return 0;
    }
    DMatrixRMaj m = inverse.get(partA);
    Integer i = place.get(a);
    Integer j = place.get(b);
    if (m == null || i == null || j == null) {
      return 0;
    }
    double ohms = entry(m, i, i) + entry(m, j, j) - 2 * entry(m, i, j);
    return 1 / Math.max(ohms, SMALLEST_OHMS);
  }

  private double byReference(Node net, Node other) {
    if (!ground.contains(other) || !(net instanceof Node.OnBoard board)) {
      return 0;
    }
    Double ohms = referenceOhms.get(new NetId(board.side(), board.name()));
    return ohms == null ? 0 : 1 / Math.max(ohms, SMALLEST_OHMS);
  }

  private static double entry(DMatrixRMaj m, int i, int j) {
    return i < m.numRows && j < m.numRows ? m.get(i, j) : 0;
  }
}
