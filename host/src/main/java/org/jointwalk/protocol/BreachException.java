package org.jointwalk.protocol;

/** What came from a fixture breaks the specification, although its check is good. */
public final class BreachException extends Exception {

  private static final long serialVersionUID = 1L;

  private final String clause;

  /**
   * @param clause of the specification, such as M37
   * @param what was found, and what is allowed
   */
  public BreachException(String clause, String what) {
    super(what + " (clause " + clause + " of the protocol)");
    this.clause = clause;
  }

  /** The clause that was broken. */
  public String clause() {
    return clause;
  }
}
