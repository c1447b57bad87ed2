package org.jointwalk.simulator;

import java.util.Arrays;
import java.util.List;

/**
 * Answers what a network does when current is driven between two of its nodes. Junctions are solved
 * by Newton's method about the state of rest, which is remembered; only the few whose voltage moves
 * cost anything. Not thread-safe.
 */
final class Solver {

  private static final int MOST_ITERATIONS = 200;

  /** A junction that moved less than this is where it was. */
  private static final double STILL = 1e-12;

  private static final double RELATIVE = 1e-11;

  /** Newton's first guess can be far off; nothing on a board lies beyond this. */
  private static final double FARTHEST_VOLTS = 100;

  private final List<Network.Placed> junctions;
  private final List<Network.Source> sources;
  private final Factor factor;
  private final double[] restVolts;
  private final double[] atRest;
  private final double[] at;
  private final double[] inner;
  private final double[] ownAmps;
  private final double[] amps;
  private final double[] volts;
  private final double sourced;
  private boolean moved;

  /**
   * What flows when a source is connected.
   *
   * @param amps through the source
   * @param volts between the two nodes
   */
  record Flow(double amps, double volts) {}

  Solver(Network network, Pattern pattern) {
    this(network.junctions(), network.sources(), new Factor(pattern, network.siemens()));
    rest();
  }

  private Solver(List<Network.Placed> junctions, List<Network.Source> sources, Factor factor) {
    this.junctions = junctions;
    this.sources = sources;
    this.factor = factor;
    int n = factor.size();
    restVolts = new double[n];
    amps = new double[n];
    volts = new double[n];
    atRest = new double[junctions.size()];
    at = new double[junctions.size()];
    inner = new double[junctions.size()];
    ownAmps = new double[junctions.size()];
    sourced = sources.stream().mapToDouble(s -> Math.abs(s.amps())).sum();
  }

  /** A solver with some conductors changed; this one stays as it is. */
  Solver with(int[] edges, double[] siemens) {
    toRest();
    Solver changed = new Solver(junctions, sources, factor.copy());
    for (int i = 0; i < edges.length; i++) {
      changed.factor.set(edges[i], siemens[i]);
    }
    changed.rest();
    return changed;
  }

  /** Changes conductors in place. */
  void set(int edge, double siemens) {
    toRest();
    factor.set(edge, siemens);
    if (!sources.isEmpty()) {
      rest();
    }
  }

  double siemens(int edge) {
    return factor.siemens(edge);
  }

  /** Resistance between two nodes about the state of rest, in ohm; infinite when there is none. */
  double ohms(int a, int b) {
    toRest();
    return factor.ohms(a, b);
  }

  /** Voltage between two nodes with nothing connected. */
  double volts(int a, int b) {
    return factor.joined(a, b) ? restVolts[a] - restVolts[b] : 0;
  }

  /** Whether anything in the network drives a current by itself. */
  boolean isLive() {
    return !sources.isEmpty();
  }

  /** Whether the network has a junction at all. */
  boolean hasJunctions() {
    return !junctions.isEmpty();
  }

  private void rest() {
    Arrays.fill(at, 0);
    for (int k = 0; k < at.length; k++) {
      evaluate(k);
    }
    moved = false;
    if (!sources.isEmpty()) {
      iterate(-1, -1, 0, 0, 0);
      System.arraycopy(volts, 0, restVolts, 0, volts.length);
    }
    System.arraycopy(at, 0, atRest, 0, at.length);
    moved = false;
  }

  private void toRest() {
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
    inner[k] = u;
    double siemens = placed.diode().siemens(u);
    ownAmps[k] = placed.diode().amps(u, at[k]) - siemens * at[k];
    factor.set(placed.edge(), siemens);
  }

  /**
   * Connects a source from node b to node a: a current that is held as long as the voltage behind
   * its series resistance suffices. Starts from where the last call ended, so that rising currents
   * cost little.
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

  /** Forgets what was driven last. */
  void release() {
    toRest();
  }

  private Flow iterate(int a, int b, double wanted, double compliance, double series) {
    boolean givesWay = false;
    for (int i = 0; i < MOST_ITERATIONS; i++) {
      double flow = wanted;
      if (!givesWay) {
        solve(a, b, wanted);
        givesWay = a >= 0 && volts[a] - volts[b] + wanted * series > compliance;
      }
      if (givesWay) {
        // The source is a voltage now; its current follows from the tangents of the junctions.
        solve(a, b, 0);
        flow = (compliance - (volts[a] - volts[b])) / (series + factor.ohms(a, b));
        givesWay = flow < wanted;
        flow = Math.min(flow, wanted);
        solve(a, b, flow);
      }
      if (follow(Math.abs(flow) + sourced)) {
        return new Flow(flow, a < 0 ? 0 : volts[a] - volts[b]);
      }
    }
    throw new IllegalStateException("the junctions of the model found no state of balance");
  }

  /** Voltages of the network of tangents, with this current from b to a. */
  private void solve(int a, int b, double flow) {
    Arrays.fill(amps, 0);
    for (Network.Source source : sources) {
      amps[source.from()] -= source.amps();
      amps[source.to()] += source.amps();
    }
    for (int k = 0; k < ownAmps.length; k++) {
      if (ownAmps[k] != 0) {
        amps[junctions.get(k).anode()] -= ownAmps[k];
        amps[junctions.get(k).cathode()] += ownAmps[k];
      }
    }
    if (a >= 0) {
      amps[a] += flow;
      amps[b] -= flow;
    }
    factor.solve(amps, volts);
  }

  /** Moves the junctions to the new voltages; true when none had to move. */
  private boolean follow(double scale) {
    boolean still = true;
    for (int k = 0; k < at.length; k++) {
      Network.Placed placed = junctions.get(k);
      double next = volts[placed.anode()] - volts[placed.cathode()];
      next = Math.max(-FARTHEST_VOLTS, Math.min(FARTHEST_VOLTS, next));
      double move = Math.abs(next - at[k]);
      // Where next to nothing flows, rounding alone can shift a whole floating part.
      if (move > STILL + RELATIVE * Math.abs(next)
          && move * factor.siemens(placed.edge()) > RELATIVE * scale) {
        still = false;
        moved = true;
        at[k] = next;
        evaluate(k);
      }
    }
    return still;
  }
}
