package org.jointwalk.upkeep;

/** The work with the fixture was ended before it was done; nothing of it counts. */
public final class StoppedException extends Exception {

  private static final long serialVersionUID = 1L;

  /**
   * @param what happened and what to do
   */
  public StoppedException(String what) {
    super(what);
  }
}
