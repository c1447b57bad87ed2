package org.jointwalk.stack;

import java.util.List;
import org.jointwalk.quantity.Ohms;

/**
 * Lands of the interposer that the interposer itself joins.
 *
 * @param where which lands it joins
 * @param positions at least two position ids, in order along the ring
 * @param ohms copper from each land to the common metal
 */
public record Tie(Where where, List<String> positions, Ohms ohms) {

  public Tie {
    positions = List.copyOf(positions);
    if (positions.size() < 2) {
      throw new IllegalArgumentException("a tie joins at least two positions, not " + positions);
    }
  }

  /** Whether the tie reaches a land of this face. */
  public boolean reaches(Face face) {
    return switch (where) {
      case TOP -> face == Face.TOP_LAND;
      case BOTTOM -> face == Face.BOTTOM_LAND;
      case EDGE -> face.ofInterposer();
    };
  }

  /** Which lands a tie joins. */
  public enum Where {
    TOP,
    BOTTOM,
    /** Edge plating: joins the lands of both faces, so that their vias lie in parallel. */
    EDGE
  }
}
