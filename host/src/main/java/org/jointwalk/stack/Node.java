package org.jointwalk.stack;

/** A node of the electrical model. */
public sealed interface Node {

  /** A pad or land on one of the four faces of a position. */
  record Land(String position, Face face) implements Node {}

  /** The meeting point of a net, or a node between two loads of a board. */
  record OnBoard(Side side, String name) implements Node {

    /** The node where a net's pads meet. */
    public static OnBoard of(NetId net) {
      return new OnBoard(net.side(), net.name());
    }
  }

  /** The metal of a tie of the interposer, by its place in the variant's list. */
  record TieMetal(int tie) implements Node {}

  /** The tip of an access point. */
  record AtPoint(String point) implements Node {}
}
