package org.jointwalk.job;

import java.util.Optional;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Side;

/** The five places where a fault can lie, from the top down. */
public enum Region {
  UPPER_BOARD,
  UPPER_JOINTS,
  INTERPOSER,
  LOWER_JOINTS,
  LOWER_BOARD;

  /** A board. */
  public static Region board(Side side) {
    return side == Side.UPPER ? UPPER_BOARD : LOWER_BOARD;
  }

  /** A row of joints. */
  public static Region joints(Side side) {
    return side == Side.UPPER ? UPPER_JOINTS : LOWER_JOINTS;
  }

  /** Where a component lies; a probe lies in none of them. */
  public static Optional<Region> of(Component component) {
    if (component instanceof Component.Pad pad) {
      return Optional.of(board(pad.side()));
    }
    if (component instanceof Component.Joint joint) {
      return Optional.of(joints(joint.side()));
    }
    if (component instanceof Component.Via) {
      return Optional.of(INTERPOSER);
    }
    if (component instanceof Component.Bridge bridge) {
      return Optional.of(joints(bridge.side()));
    }
    if (component instanceof Component.NetOf net) {
      return Optional.of(board(net.net().side()));
    }
    if (component instanceof Component.Hidden hidden) {
      return Optional.of(board(hidden.side()));
    }
    return Optional.empty();
  }
}
