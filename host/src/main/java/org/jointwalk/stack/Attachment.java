package org.jointwalk.stack;

/** What the interposer is soldered to at a moment. */
public enum Attachment {
  BOTH,
  LOWER,
  UPPER,
  NONE;

  /** Attached to this board only. */
  public static Attachment only(Side side) {
    return side == Side.UPPER ? UPPER : LOWER;
  }

  /** Whether the interposer is soldered to this board. */
  public boolean holds(Side side) {
    return this == BOTH || this == only(side);
  }

  /** What is left when the joints of a side let go. */
  public Attachment without(Side side) {
    if (!holds(side)) {
      return this;
    }
    return this == BOTH ? only(side.other()) : NONE;
  }

  /** What is there when a side has been soldered. */
  public Attachment with(Side side) {
    if (holds(side)) {
      return this;
    }
    return this == NONE ? only(side) : BOTH;
  }
}
