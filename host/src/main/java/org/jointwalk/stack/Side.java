package org.jointwalk.stack;

/** The two boards of a stack, and the two rows of joints that hold the interposer to them. */
public enum Side {
  UPPER,
  LOWER;

  /** The board across the interposer. */
  public Side other() {
    return this == UPPER ? LOWER : UPPER;
  }
}
