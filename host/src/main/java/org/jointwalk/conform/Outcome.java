package org.jointwalk.conform;

/**
 * What a clause came to.
 *
 * @param clause its number in the specification, such as M17
 * @param title what it asks, in a few words
 * @param result how it stands
 * @param detail what was seen: of a failed clause what was wrong, of one that was not tested why;
 *     may be empty
 */
public record Outcome(String clause, String title, Result result, String detail) {

  /** How a clause stands. */
  public enum Result {
    PASSED,
    FAILED,
    NOT_TESTABLE
  }

  /** The number alone, for putting clauses in their order. */
  int number() {
    return Integer.parseInt(clause.substring(1));
  }
}
