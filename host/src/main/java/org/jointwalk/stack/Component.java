package org.jointwalk.stack;

/** Anything of a stack or fixture that can be at fault. */
public sealed interface Component {

  /** A board's pad at a position, with its copper to the net. */
  record Pad(Side side, String position) implements Component {}

  /** The solder between a board's pad and the interposer's land. */
  record Joint(Side side, String position) implements Component {}

  /** The interposer's own path between its two lands. */
  record Via(String position) implements Component {}

  /** A net of a board with all that hangs on it. */
  record NetOf(NetId net) implements Component {}

  /**
   * Metal or residue between two neighbouring positions, on one row of joints.
   *
   * @param side the row of joints
   * @param a the id that comes first in alphabetical order
   * @param b the other id
   */
  record Bridge(Side side, String a, String b) implements Component {

    public Bridge {
      if (a.compareTo(b) >= 0) {
        throw new IllegalArgumentException("a bridge names two positions in order, not " + a + b);
      }
    }

    /** The bridge between two positions, given in any order. */
    public static Bridge between(Side side, String a, String b) {
      return a.compareTo(b) < 0 ? new Bridge(side, a, b) : new Bridge(side, b, a);
    }
  }

  /** A part of a board that serves a function and that cannot be seen from the ring. */
  record Hidden(Side side, String function) implements Component {}

  /** A probe of the fixture. */
  record Probe(Contact contact) implements Component {}
}
