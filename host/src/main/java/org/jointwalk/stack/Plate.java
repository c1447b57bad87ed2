package org.jointwalk.stack;

/** The two probe plates of a fixture. */
public enum Plate {
  /** Presses down. */
  OVER,
  /** Presses up. */
  UNDER
}
