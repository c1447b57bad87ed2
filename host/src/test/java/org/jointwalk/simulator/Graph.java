package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** A network of resistors by its edges, for tests. */
record Graph(int nodes, List<Edge> edges) {

  record Edge(int a, int b, double ohms) {}

  /** Unit resistors between pairs of nodes. */
  static Graph of(int nodes, int[][] pairs) {
    return new Graph(nodes, Arrays.stream(pairs).map(p -> new Edge(p[0], p[1], 1)).toList());
  }

  static Graph cycle(int n) {
    List<Edge> edges = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      edges.add(new Edge(i, (i + 1) % n, 1));
    }
    return new Graph(n, edges);
  }

  static Graph complete(int n) {
    List<Edge> edges = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        edges.add(new Edge(i, j, 1));
      }
    }
    return new Graph(n, edges);
  }

  /** Every node of the first kind joined to every one of the second. */
  static Graph bipartite(int m, int n) {
    List<Edge> edges = new ArrayList<>();
    for (int i = 0; i < m; i++) {
      for (int j = 0; j < n; j++) {
        edges.add(new Edge(i, m + j, 1));
      }
    }
    return new Graph(m + n, edges);
  }

  /** A rim of n nodes; node n is the hub. */
  static Graph wheel(int n) {
    List<Edge> edges = new ArrayList<>(cycle(n).edges());
    for (int i = 0; i < n; i++) {
      edges.add(new Edge(i, n, 1));
    }
    return new Graph(n + 1, edges);
  }

  /** A square grid; node of column x and row y is x + n y. */
  static Graph grid(int n) {
    List<Edge> edges = new ArrayList<>();
    for (int i = 0; i < n * n; i++) {
      if (i % n < n - 1) {
        edges.add(new Edge(i, i + 1, 1));
      }
      if (i / n < n - 1) {
        edges.add(new Edge(i, i + n, 1));
      }
    }
    return new Graph(n * n, edges);
  }

  /** A cube of side n nodes; node is x + n (y + n z). */
  static Graph cube(int n) {
    List<Edge> edges = new ArrayList<>();
    for (int i = 0; i < n * n * n; i++) {
      if (i % n < n - 1) {
        edges.add(new Edge(i, i + 1, 1));
      }
      if (i / n % n < n - 1) {
        edges.add(new Edge(i, i + n, 1));
      }
      if (i / (n * n) < n - 1) {
        edges.add(new Edge(i, i + n * n, 1));
      }
    }
    return new Graph(n * n * n, edges);
  }

  /** Two rings, each node of one joined to one of the other: generalised Petersen graph. */
  static Graph petersen(int n, int step) {
    List<Edge> edges = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      edges.add(new Edge(i, (i + 1) % n, 1));
      edges.add(new Edge(i, n + i, 1));
      edges.add(new Edge(n + i, n + (i + step) % n, 1));
    }
    return new Graph(2 * n, edges);
  }

  /** Two poles (10 and 11) and two rings of five. */
  static Graph icosahedron() {
    List<Edge> edges = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      int next = (i + 1) % 5;
      edges.add(new Edge(10, i, 1));
      edges.add(new Edge(11, 5 + i, 1));
      edges.add(new Edge(i, next, 1));
      edges.add(new Edge(5 + i, 5 + next, 1));
      edges.add(new Edge(i, 5 + i, 1));
      edges.add(new Edge(next, 5 + i, 1));
    }
    return new Graph(12, edges);
  }

  /**
   * A connected network of random topology with resistances over some decades.
   *
   * @param decades how many powers of ten the resistances span
   */
  static Graph random(int nodes, int extra, double decades, Draw draw) {
    List<Edge> edges = new ArrayList<>();
    for (int i = 1; i < nodes; i++) {
      edges.add(edge(i, (int) draw.at("tree").at(i).uniform(0, i), decades, draw.at("r").at(i)));
    }
    while (edges.size() < nodes - 1 + extra) {
      Draw one = draw.at("extra").at(edges.size());
      int a = (int) one.at("a").uniform(0, nodes);
      int b = (a + 1 + (int) one.at("b").uniform(0, nodes - 1)) % nodes;
      edges.add(edge(a, b, decades, one.at("r")));
    }
    return new Graph(nodes, edges);
  }

  private static Edge edge(int a, int b, double decades, Draw draw) {
    return new Edge(a, b, Math.pow(10, draw.uniform(-decades / 2, decades / 2)));
  }

  Factor factor() {
    return new Factor(network().pattern(0, Optional.empty()), network().siemens());
  }

  Network network() {
    Network network = new Network();
    for (int i = 0; i < nodes; i++) {
      network.node();
    }
    edges.forEach(e -> network.resistor(e.a(), e.b(), e.ohms()));
    return network;
  }

  /** The network with one resistance changed. */
  Graph with(int edge, double ohms) {
    List<Edge> changed = new ArrayList<>(edges);
    changed.set(edge, new Edge(edges.get(edge).a(), edges.get(edge).b(), ohms));
    return new Graph(nodes, changed);
  }

  /** Steps from one node to each. */
  int[] distances(int from) {
    int[] steps = new int[nodes];
    Arrays.fill(steps, Integer.MAX_VALUE / 2);
    steps[from] = 0;
    for (int round = 0; round < nodes; round++) {
      for (Edge e : edges) {
        steps[e.a()] = Math.min(steps[e.a()], steps[e.b()] + 1);
        steps[e.b()] = Math.min(steps[e.b()], steps[e.a()] + 1);
      }
    }
    return steps;
  }
}
