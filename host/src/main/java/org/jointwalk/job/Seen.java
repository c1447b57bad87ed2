package org.jointwalk.job;

import org.jointwalk.stack.Side;

/**
 * What the eye found at a position.
 *
 * @param side which row of joints
 * @param position its id
 * @param look what it looks like
 */
public record Seen(Side side, String position, Look look) {

  /** The looks that the bench tells apart. */
  public enum Look {
    DRY,
    TORN,
    SMEARED,
    BALL_MISSING,
    BALL_LOW,
    FINE
  }
}
