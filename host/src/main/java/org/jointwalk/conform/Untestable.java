package org.jointwalk.conform;

/** A clause cannot be looked at on this fixture or this line. */
final class Untestable extends Exception {

  private static final long serialVersionUID = 1L;

  /** Why not. */
  Untestable(String why) {
    super(why);
  }
}
