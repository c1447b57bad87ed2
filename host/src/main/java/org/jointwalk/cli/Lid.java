package org.jointwalk.cli;

import java.util.List;

/** How parts come to be seated again. */
@FunctionalInterface
interface Lid {

  /**
   * Has the parts seated again.
   *
   * @param positions what it is about; empty when the seating as a whole is in doubt
   * @return false when nobody will
   */
  boolean again(List<String> positions);

  /** Waits for nobody any more, now and later. Any thread. */
  default void stop() {}
}
