package org.jointwalk.conform;

/** A fixture did not do what a clause asks. */
final class Breach extends Exception {

  private static final long serialVersionUID = 1L;

  /** What was seen, and what would have been right. */
  Breach(String seen) {
    super(seen);
  }
}
