package org.jointwalk.simulator;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Answers what a network does when current is driven between two of its nodes. Junctions are solved
 * by Newton's method about the state of rest, which is remembered; only the few whose voltage moves
 * cost anything. Not thread-safe.
 */
final class Solver {

  private static final int MOST_ITERATIONS = 200;

  /** A junction that moved less than this is where it was. */
  private static final double STILL_VOLTS = 1e-12;

  private static final double RELATIVE = 1e-11;

  /** A junction whose current changed by less than this is where it was. */
  private static final double STILL_AMPS = 1e-18;

  /** Newton's first guess can be far off; no junction bears more than this forwards. */
  private static final double MOST_FORWARD_VOLTS = 100;

  private static final int NOWHERE = -1;

  private final List<Network.Placed> junctions;
  private final List<Network.Source> sources;
  private final Factor factor;
  private final int[] core;
  private final boolean[] inCore;
  private final int[] anode;
  private final int[] cathode;
  private final double[] atRest;
  private final double[] at;
  private final double[] ownAmps;
  private final double[] y;
  private final double sourced;
  private int[] below = new int[16];
  private int belowCount;
  private boolean moved;

  /**
   * What flows when a source is connected.
   *
   * @param amps through the source
   * @param volts between the two nodes
   */
  record Flow(double amps, double volts) {}

  Solver(Network network, Pattern pattern) {
    junctions = network.junctions();
    sources = network.sources();
    factor = new Factor(pattern, network.siemens());
    core =
        factor.upwardsOf(
            IntStream.concat(
                    junctions.stream().flatMapToInt(j -> IntStream.of(j.anode(), j.cathode())),
                    sources.stream().flatMapToInt(s -> IntStream.of(s.from(), s.to())))
                .toArray());
    inCore = new boolean[pattern.size()];
    for (int j : core) {
      inCore[j] = true;
    }
    anode = junctions.stream().mapToInt(j -> factor.column(j.anode())).toArray();
    cathode = junctions.stream().mapToInt(j -> factor.column(j.cathode())).toArray();
    atRest = new double[anode.length];
    at = new double[anode.length];
    ownAmps = new double[anode.length];
    y = new double[pattern.size()];
    sourced = sources.stream().mapToDouble(s -> Math.abs(s.amps())).sum();
    settle();
  }

  private Solver(Solver other) {
    junctions = other.junctions;
    sources = other.sources;
    factor = other.factor.copy();
    core = other.core;
    inCore = other.inCore;
    anode = other.anode;
    cathode = other.cathode;
    atRest = other.atRest.clone();
    at = other.at.clone();
    ownAmps = other.ownAmps.clone();
    y = new double[other.y.length];
    sourced = other.sourced;
  }

  /** A solver that can be changed without changing this one. */
  Solver copy() {
    release();
    return new Solver(this);
  }

  /** Gives a conductor another conductance, in siemens. */
  void set(int edge, double siemens) {
    release();
    factor.set(edge, siemens);
    if (!sources.isEmpty()) {
      settle();
    }
  }

  double siemens(int edge) {
    return factor.siemens(edge);
  }

  /** Resistance between two nodes about the state of rest, in ohm; infinite when there is none. */
  double ohms(int a, int b) {
    release();
    return factor.ohms(a, b);
  }

  /**
   * Voltages about the state of rest, by node, when one ampere enters at a and leaves at b; each
   * against the reference of its part. Zero everywhere when nothing joins the two.
   */
  double[] potentials(int a, int b) {
    release();
    double[] volts = new double[y.length];
    if (a != b && factor.joined(a, b)) {
      double[] all = new double[y.length];
      all[factor.column(a)] = 1;
      all[factor.column(b)] = -1;
      factor.solve(all, IntStream.range(0, all.length).toArray(), all.length, new int[0]);
      Arrays.setAll(volts, node -> all[factor.column(node)]);
    }
    return volts;
  }

  /** Voltage between two nodes with nothing connected. */
  double volts(int a, int b) {
    if (sources.isEmpty() || !factor.joined(a, b)) {
      return 0;
    }
    release();
    solve(a, b, 0);
    return y[factor.column(a)] - y[factor.column(b)];
  }

  /** Whether anything in the network drives a current by itself. */
  boolean isLive() {
    return !sources.isEmpty();
  }

  /** Whether the network has a junction at all. */
  boolean hasJunctions() {
    return anode.length > 0;
  }

  /** Finds the state of rest. */
  private void settle() {
    Arrays.fill(at, 0);
    for (int k = 0; k < at.length; k++) {
      evaluate(k);
    }
    if (!sources.isEmpty()) {
      iterate(NOWHERE, NOWHERE, 0, 0, 0);
    }
    System.arraycopy(at, 0, atRest, 0, at.length);
    moved = false;
  }

  /** Lets go of what was driven last. */
  void release() {
    if (moved) {
      for (int k = 0; k < at.length; k++) {
        if (at[k] != atRest[k]) {
          at[k] = atRest[k];
          evaluate(k);
        }
      }
      moved = false;
    }
  }

  /** Takes over the tangent of a junction at its voltage. */
  private void evaluate(int k) {
    Network.Placed placed = junctions.get(k);
    double u = placed.diode().inner(at[k]);
    double siemens = placed.diode().siemens(u);
    ownAmps[k] = placed.diode().amps(u, at[k]) - siemens * at[k];
    factor.set(placed.edge(), siemens);
  }

  /**
   * Connects a source from node b to node a: a current that is held as long as the voltage behind
   * its series resistance suffices. Starts from where the last call ended, so that rising currents
   * cost little; {@link #release} ends it.
   *
   * @param amps the current that it holds
   * @param compliance voltage with nothing connected
   * @param series resistance between that voltage and the nodes, in ohm
   */
  Flow drive(int a, int b, double amps, double compliance, double series) {
    if (a == b) {
      return new Flow(Math.min(amps, compliance / series), 0);
    }
    if (!factor.joined(a, b)) {
      return new Flow(0, compliance);
    }
    return iterate(a, b, amps, compliance, series);
  }

  private Flow iterate(int a, int b, double wanted, double compliance, double series) {
    boolean givesWay = false;
    for (int i = 0; i < MOST_ITERATIONS; i++) {
      double flow = wanted;
      double volts = 0;
      if (!givesWay) {
        volts = solve(a, b, wanted);
        givesWay = volts + wanted * series > compliance;
      }
      if (givesWay) {
        // The source is a voltage now; its current follows from the tangents of the junctions.
        flow = (compliance - solve(a, b, 0)) / (series + factor.ohms(a, b));
        givesWay = flow < wanted;
        flow = Math.min(flow, wanted);
        volts = solve(a, b, flow);
      }
      if (follow(Math.abs(flow) + sourced)) {
        return new Flow(flow, volts);
      }
    }
    throw new IllegalStateException("the junctions of the model found no state of balance");
  }

  /** Solves the network of tangents with this current from b to a; returns volts between them. */
  private double solve(int a, int b, double flow) {
    Arrays.fill(y, 0);
    for (Network.Source source : sources) {
      y[factor.column(source.from())] -= source.amps();
      y[factor.column(source.to())] += source.amps();
    }
    for (int k = 0; k < ownAmps.length; k++) {
      if (ownAmps[k] != 0) {
        y[anode[k]] -= ownAmps[k];
        y[cathode[k]] += ownAmps[k];
      }
    }
    belowCount = 0;
    if (a != NOWHERE) {
      climb(a);
      climb(b);
      Arrays.sort(below, 0, belowCount);
      y[factor.column(a)] += flow;
      y[factor.column(b)] -= flow;
    }
    factor.solve(y, below, belowCount, core);
    return a == NOWHERE ? 0 : y[factor.column(a)] - y[factor.column(b)];
  }

  /** Lists the columns between a node and the core. */
  private void climb(int node) {
    for (int j = factor.column(node); j >= 0 && !inCore[j]; j = factor.parent(j)) {
      if (isBelow(j)) {
        return;
      }
      if (belowCount == below.length) {
        below = Arrays.copyOf(below, 2 * belowCount);
      }
      below[belowCount++] = j;
    }
  }

  private boolean isBelow(int column) {
    for (int k = 0; k < belowCount; k++) {
      if (below[k] == column) {
        return true;
      }
    }
    return false;
  }

  /** Moves the junctions to the new voltages; true when none had to move. */
  private boolean follow(double scale) {
    double least = Math.max(RELATIVE * scale, STILL_AMPS);
    boolean still = true;
    for (int k = 0; k < at.length; k++) {
      double next = y[anode[k]] - y[cathode[k]];
      double move = Math.abs(next - at[k]);
      // Where next to nothing flows, rounding alone can shift a whole floating part.
      if (move > STILL_VOLTS + RELATIVE * Math.abs(next)
          && move * factor.siemens(junctions.get(k).edge()) > least) {
        still = false;
        moved = true;
        at[k] = Math.min(MOST_FORWARD_VOLTS, next);
        evaluate(k);
      }
    }
    return still;
  }
}
