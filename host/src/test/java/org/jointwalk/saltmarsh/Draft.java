package org.jointwalk.saltmarsh;

import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;

/**
 * A net as its designer thought of it, before each board ties its pads in its own way.
 *
 * @param name on both boards unless parted
 * @param kind what it is
 * @param function it serves
 * @param pads how many
 * @param volts nominal voltage, 0 when nobody knows
 * @param ohms low-voltage load of a rail, 0 for others
 * @param parted whether the lower board has two nets where the upper has one
 */
record Draft(
    String name, Kind kind, String function, int pads, double volts, double ohms, boolean parted) {

  enum Kind {
    GROUND,
    RAIL,
    PAIR,
    SINGLE,
    /** A single behind a series capacitor. */
    BLOCKED,
    SPARE
  }

  static Draft of(String name, Kind kind, String function) {
    return new Draft(name, kind, function, 1, 0, 0, false);
  }

  Role role() {
    return switch (kind) {
      case GROUND -> Role.GROUND;
      case RAIL -> Role.RAIL;
      case PAIR, SINGLE, BLOCKED -> Role.SIGNAL;
      case SPARE -> Role.UNUSED;
    };
  }

  /** Whether the lower board has this net in two parts and the side is that board. */
  boolean partedOn(Side side) {
    return parted && side == Side.LOWER;
  }

  /** The net of one of its pads on a board. */
  NetId net(Side side, int pad) {
    String part = partedOn(side) ? (pad < (pads + 1) / 2 ? "_A" : "_B") : "";
    return new NetId(side, name + part);
  }
}
