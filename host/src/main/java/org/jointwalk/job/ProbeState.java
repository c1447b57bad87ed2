package org.jointwalk.job;

import org.jointwalk.stack.Contact;

/**
 * How a probe has done since it was last cleaned.
 *
 * @param contact what it touches
 * @param passes in which its resistance was read
 * @param pressings how often it was pressed on a board
 * @param missed how often it was seen not to land
 * @param rise its one-sided sum of rises, in spreads of its own landings
 * @param missRate how often it is expected to miss, 0 to 1
 * @param advice what to do about it
 */
public record ProbeState(
    Contact contact,
    int passes,
    int pressings,
    int missed,
    double rise,
    double missRate,
    Advice advice) {

  /** What to do about a probe. */
  public enum Advice {
    /** Nothing. */
    FINE,
    /** It may be getting worse: look at it when you clean the others. */
    WATCH,
    /** It has got worse: clean it, and replace it when that does not help. */
    CLEAN
  }
}
