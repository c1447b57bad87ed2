package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.stack.Condition;

/**
 * The conductors of a circuit that drop out while time goes by. Each begins its period at a moment
 * of its own. Not thread-safe.
 */
final class Flicker {

  private final Solver solver;
  private final List<Gap> gaps = new ArrayList<>();

  private static final class Gap {

    private final int edge;
    private final double siemens;
    private final double period;
    private final double open;
    private final double phase;
    private boolean out;

    private Gap(int edge, double siemens, Condition.Intermittent flicker, double phase) {
      this.edge = edge;
      this.siemens = siemens;
      this.period = flicker.periodSeconds();
      this.open = flicker.openSeconds();
      this.phase = phase;
    }

    private boolean outAt(double seconds) {
      return (seconds + phase) % period < open;
    }
  }

  /**
   * @param circuit whose state follows the time
   * @param draw from which each conductor has its moment
   */
  Flicker(Circuit circuit, Draw draw) {
    solver = circuit.solver();
    circuit
        .flickering()
        .forEach(
            (ends, flicker) ->
                gaps.add(
                    new Gap(
                        ends.edge(),
                        solver.siemens(ends.edge()),
                        flicker,
                        draw.at(ends.edge()).uniform() * flicker.periodSeconds())));
  }

  /** Brings the circuit into its state at a moment, in seconds since the seating. */
  void at(double seconds) {
    for (Gap gap : gaps) {
      boolean out = gap.outAt(seconds);
      if (out != gap.out) {
        gap.out = out;
        solver.set(gap.edge, out ? 0 : gap.siemens);
      }
    }
  }
}
