package org.jointwalk.pass;

import java.util.List;
import org.jointwalk.job.Question.Need;

/**
 * The person at the fixture, as far as a pass needs one. Called on the thread of the pass, but for
 * {@link #stop}.
 */
public interface Operator {

  /**
   * Asks to open the lid, seat the parts again and close it.
   *
   * @param positions what it is about; empty when the seating as a whole is in doubt
   * @return false when nobody will, so that the pass ends with what it has
   */
  boolean reseat(List<String> positions);

  /**
   * Tells how far the pass is.
   *
   * @param need what is being answered
   * @param taken readings of the present scan so far
   * @param of readings of the present scan
   */
  void progress(Need need, int taken, int of);

  /** Something worth saying that does not stop the pass. */
  void remark(String text);

  /**
   * Nobody is waited for any more: {@link #reseat} returns soon, false. Any thread, any number of
   * times. Does nothing where nobody is ever waited for.
   */
  default void stop() {}
}
