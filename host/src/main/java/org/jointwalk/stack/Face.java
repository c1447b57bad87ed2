package org.jointwalk.stack;

/** The four faces that meet at a position, from the upper board down to the lower. */
public enum Face {
  /** Pad of the upper board, facing down. */
  UPPER_PAD(Side.UPPER),
  /** Land on the interposer's top. */
  TOP_LAND(Side.UPPER),
  /** Land on the interposer's bottom. */
  BOTTOM_LAND(Side.LOWER),
  /** Pad of the lower board, facing up. */
  LOWER_PAD(Side.LOWER);

  private final Side side;

  Face(Side side) {
    this.side = side;
  }

  /** The row of joints that this face belongs to. */
  public Side side() {
    return side;
  }

  /** Whether the face is one of the interposer's own. */
  public boolean ofInterposer() {
    return this == TOP_LAND || this == BOTTOM_LAND;
  }

  /** The board's pad on a side. */
  public static Face padOf(Side side) {
    return side == Side.UPPER ? UPPER_PAD : LOWER_PAD;
  }

  /** The interposer's land on a side. */
  public static Face landOf(Side side) {
    return side == Side.UPPER ? TOP_LAND : BOTTOM_LAND;
  }
}
