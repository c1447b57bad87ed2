package org.jointwalk.solve;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;

/**
 * What a good board conducts between two of its nets at a few millivolt: its resistances, and a
 * safe bound for Schottky junctions. Silicon junctions do not conduct there. Where both boards are
 * in the fixture the nets that the ring joins count as one. Built once per pass; cubic in the nodes
 * that hang together by resistance. Immutable.
 */
final class Expected {

  /** Conductance below which two nets count as apart, in siemens. */
  static final double SEEN = 1e-5;

  /** A large Schottky junction near zero volt conducts less than this many ohm would. */
  private static final double SCHOTTKY_OHMS = 1000;

  private static final double SMALLEST_OHMS = 1e-3;

  /** A conductor between two nodes. */
  record Wire(Node a, Node b, double siemens) {}

  private final Map<Node, List<Wire>> at = new LinkedHashMap<>();
  private final Map<NetId, Double> referenceSiemens;
  private final Map<Node, Side> grounds;
  private final Map<Node, Part> parts = new LinkedHashMap<>();

  /** Nodes that hang together: their places, and the inverse that gives every resistance. */
  private record Part(Map<Node, Integer> places, DMatrixRMaj inverse) {}

  Expected(Assembly assembly) {
    this.referenceSiemens = references(assembly);
    this.grounds = grounds(assembly);
    wires(assembly).forEach(this::lay);
    for (Node start : at.keySet()) {
      if (!parts.containsKey(start)) {
        factor(start);
      }
    }
  }

  private Expected(Expected before, Wire found) {
    this.referenceSiemens = before.referenceSiemens;
    this.grounds = before.grounds;
    at.putAll(before.at);
    parts.putAll(before.parts);
    lay(found);
    factor(found.a());
  }

  private void lay(Wire wire) {
    for (Node end : List.of(wire.a(), wire.b())) {
      List<Wire> wires = new ArrayList<>(at.getOrDefault(end, List.of()));
      wires.add(wire);
      at.put(end, wires);
    }
  }

  private static List<Wire> wires(Assembly assembly) {
    List<Wire> wires = new ArrayList<>();
    for (Load load : assembly.loads()) {
      if (conducts(load)) {
        wires.add(wire(load));
      }
    }
    if (assembly.setUp().joints().size() == Side.values().length) {
      for (Position p : assembly.map().positions().values()) {
        wires.add(
            new Wire(
                Node.OnBoard.of(p.net(Side.UPPER)),
                Node.OnBoard.of(p.net(Side.LOWER)),
                1 / SMALLEST_OHMS));
      }
    }
    return wires;
  }

  /** A reference was read on a board that was alone. */
  private static Map<NetId, Double> references(Assembly assembly) {
    Map<NetId, Double> siemens = new LinkedHashMap<>();
    if (assembly.setUp().boards().size() == 1) {
      for (Reference reference : assembly.map().references()) {
        if (reference instanceof Reference.ToGround toGround) {
          siemens.put(toGround.net(), 1 / Math.max(toGround.ohms().value(), SMALLEST_OHMS));
        }
      }
    }
    return siemens;
  }

  private static Map<Node, Side> grounds(Assembly assembly) {
    Map<Node, Side> grounds = new LinkedHashMap<>();
    assembly.map().nets().values().stream()
        .filter(n -> n.role() == Role.GROUND)
        .forEach(n -> grounds.put(Node.OnBoard.of(n.id()), n.id().side()));
    return grounds;
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

  /** The same boards with a conductor that good ones do not have. */
  Expected with(Wire found) {
    return new Expected(this, found);
  }

  private void factor(Node start) {
    Map<Node, Integer> places = new LinkedHashMap<>(Map.of(start, 0));
    List<Node> queue = new ArrayList<>(List.of(start));
    for (int i = 0; i < queue.size(); i++) {
      for (Wire wire : at.getOrDefault(queue.get(i), List.of())) {
        for (Node end : List.of(wire.a(), wire.b())) {
          if (places.putIfAbsent(end, places.size()) == null) {
            queue.add(end);
          }
        }
      }
    }
    // The first node is held at zero; the inverse of the rest gives every effective resistance.
    int n = places.size() - 1;
    DMatrixRMaj laplacian = new DMatrixRMaj(n, n);
    for (Node node : queue) {
      for (Wire wire : at.getOrDefault(node, List.of())) {
        Node other = wire.a().equals(node) ? wire.b() : wire.a();
        add(laplacian, place(places, node), place(places, other), wire.siemens());
      }
    }
    if (n > 0) {
      CommonOps_DDRM.invert(laplacian);
    }
    Part part = new Part(places, laplacian);
    queue.forEach(node -> parts.put(node, part));
  }

  /** One end of a wire; its other end adds the rest. */
  private static void add(DMatrixRMaj laplacian, int here, int there, double siemens) {
    if (here == 0 || here == there) {
      return;
    }
    laplacian.add(here - 1, here - 1, siemens);
    if (there > 0) {
      laplacian.add(here - 1, there - 1, -siemens);
    }
  }

  private static int place(Map<Node, Integer> places, Node node) {
    Integer place = places.get(node);
    if (place == null) {
      throw new IllegalArgumentException(node + " is in another part");
    }
    return place;
  }

  /**
   * Conductance between two nodes of good boards in siemens, as it was learned, else by their
   * loads; zero when nothing joins them.
   */
  double between(Node a, Node b) {
    double byGround = Math.max(byReference(a, b), byReference(b, a));
    return byGround > 0 ? byGround : byLoads(a, b);
  }

  /** Conductance between two nodes by loads and found conductors alone. */
  double byLoads(Node a, Node b) {
    Part part = parts.get(a);
    if (part == null || a.equals(b) || !part.places().containsKey(b)) {
      return 0;
    }
    DMatrixRMaj m = part.inverse();
    int i = place(part.places(), a);
    int j = place(part.places(), b);
    double ohms = entry(m, i, i) + entry(m, j, j) - 2 * entry(m, i, j);
    return 1 / Math.max(ohms, SMALLEST_OHMS);
  }

  private double byReference(Node net, Node ground) {
    if (!(net instanceof Node.OnBoard board) || grounds.get(ground) != board.side()) {
      return 0;
    }
    return referenceSiemens.getOrDefault(new NetId(board.side(), board.name()), 0.0);
  }

  private static double entry(DMatrixRMaj m, int i, int j) {
    return i == 0 || j == 0 ? 0 : m.get(i - 1, j - 1);
  }
}
