package org.jointwalk.job;

import org.jointwalk.fixture.Clamping;

/**
 * One clamping as the job counts it.
 *
 * @param number from 1, over all passes of the job
 * @param clamping what the fixture says of it
 */
public record Seating(int number, Clamping clamping) {

  /** A seating in which more of its contacts than this lack a path did not sit well. */
  private static final double TILTED = 0.08;

  /** As many missing paths as this are no sign of tilt, however few contacts were read. */
  private static final int MISSING_AT_FIRST = 6;

  private static final int MISSING_LATER = 1;

  /**
   * Whether so many paths are missing that the parts sat badly, rather than single probes.
   *
   * @param lost contacts without a path
   * @param read contacts that should have one
   * @param all whether the seating reads everything, not only what was in doubt
   */
  public static boolean isTilted(int lost, int read, boolean all) {
    return lost > Math.max(all ? MISSING_AT_FIRST : MISSING_LATER, TILTED * read);
  }
}
