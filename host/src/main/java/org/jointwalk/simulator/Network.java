package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A network under construction: nodes, conductors, junctions and sources. Not thread-safe. */
final class Network {

  /** No conductor of the model has less resistance than this; a smaller one counts as this. */
  static final double LEAST_OHMS = 1e-6;

  /**
   * A conductor in its place.
   *
   * @param spread standard deviation of good ones, as a fraction; 0 for what no model foresees
   */
  record Resistor(int a, int b, double siemens, double spread) {}

  /**
   * A junction in its place.
   *
   * @param edge the edge that carries its conductance
   */
  record Placed(int anode, int cathode, int edge, Diode diode) {}

  /** A current that flows by itself. */
  record Source(int from, int to, double amps) {}

  private final List<Resistor> resistors = new ArrayList<>();
  private final List<Placed> junctions = new ArrayList<>();
  private final List<Source> sources = new ArrayList<>();
  private int nodes;

  /** Adds a node and returns its number, counted from 0. */
  int node() {
    return nodes++;
  }

  int size() {
    return nodes;
  }

  /** Adds a conductor and returns its number; infinite ohms for one that does not conduct yet. */
  int resistor(int from, int to, double ohms) {
    return resistor(from, to, ohms, 0);
  }

  /** The same for a conductor of which good ones differ by this fraction. */
  int resistor(int from, int to, double ohms, double spread) {
    resistors.add(new Resistor(from, to, conductance(ohms), spread));
    return resistors.size() - 1;
  }

  /** Adds a junction and returns the edge that stands for it. */
  int junction(int anode, int cathode, Diode diode) {
    int edge = resistor(anode, cathode, Double.POSITIVE_INFINITY);
    junctions.add(new Placed(anode, cathode, edge, diode));
    return edge;
  }

  /** Adds a voltage behind a resistance and returns its edge. */
  int source(int minus, int plus, double volts, double ohms) {
    int edge = resistor(minus, plus, ohms);
    sources.add(new Source(minus, plus, volts * resistors.get(edge).siemens()));
    return edge;
  }

  /** The conductance of so many ohms, in siemens. */
  static double conductance(double ohms) {
    return Double.isInfinite(ohms) ? 0 : 1 / Math.max(ohms, LEAST_OHMS);
  }

  List<Resistor> resistors() {
    return List.copyOf(resistors);
  }

  List<Placed> junctions() {
    return List.copyOf(junctions);
  }

  List<Source> sources() {
    return List.copyOf(sources);
  }

  /**
   * Finds the order of elimination.
   *
   * @param last how many of the nodes added last have to stay last
   * @param known a pattern to return instead when it is of this very topology
   */
  Pattern pattern(int last, Optional<Pattern> known) {
    int[] from = resistors.stream().mapToInt(Resistor::a).toArray();
    int[] to = resistors.stream().mapToInt(Resistor::b).toArray();
    return known
        .filter(pattern -> pattern.fits(nodes, last, from, to))
        .orElseGet(() -> new Pattern(nodes, last, from, to));
  }

  double[] siemens() {
    return resistors.stream().mapToDouble(Resistor::siemens).toArray();
  }
}
