package org.jointwalk.stack;

import java.util.List;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;

/** What known-good boards of the model read at a net, learned from good stacks. */
public sealed interface Reference {

  /** The net that was read against ground. */
  NetId net();

  /** How many good boards it was learned from, at least one. */
  int boards();

  /**
   * The ground-side junction: current from ground into the net.
   *
   * @param amps the currents, ascending
   * @param volts the drop at each current, mean over the boards
   * @param sd standard deviation between boards of the drop at one current, what all drops of a
   *     board have in common taken off
   * @param growthSd the same of how much the drop grows from the lowest current to the highest
   */
  record Drop(NetId net, List<Amps> amps, List<Volts> volts, Volts sd, Volts growthSd, int boards)
      implements Reference {

    public Drop {
      amps = List.copyOf(amps);
      volts = List.copyOf(volts);
      if (amps.isEmpty() || amps.size() != volts.size()) {
        throw new IllegalArgumentException(
            net + ": a drop needs one voltage for each current, not " + amps + " and " + volts);
      }
      requireBoards(net, boards);
    }
  }

  /**
   * Resistance of a net to ground at low voltage.
   *
   * @param ohms mean over the boards
   * @param relativeSd standard deviation between boards, as a fraction of the mean
   */
  record ToGround(NetId net, Ohms ohms, double relativeSd, int boards) implements Reference {

    public ToGround {
      if (!(relativeSd >= 0)) {
        throw new IllegalArgumentException(net + ": relative sd must not be " + relativeSd);
      }
      requireBoards(net, boards);
    }
  }

  private static void requireBoards(NetId net, int boards) {
    if (boards < 1) {
      throw new IllegalArgumentException(net + ": a reference needs a board, not " + boards);
    }
  }
}
