package org.jointwalk.conform;

import java.io.IOException;

/**
 * One clause and how it is looked at.
 *
 * @param clause its number, such as M17
 * @param title what it asks, in a few words
 * @param body looks
 * @param hidden why nobody can look at it from the other end of a line; empty when it can be
 */
record Check(String clause, String title, Body body, String hidden) {

  Check(String clause, String title, Body body) {
    this(clause, title, body, "");
  }

  /** Looks at a fixture, in a session of its own. */
  @FunctionalInterface
  interface Body {

    /**
     * Returns when the clause is kept.
     *
     * @return what was seen; may be empty
     * @throws Breach when it is not kept
     * @throws Untestable when this fixture or line does not allow to look
     * @throws IOException when the line fails
     */
    String look(Talk talk) throws Breach, Untestable, IOException;
  }

  /** A clause that bytes cannot show. */
  static Check hidden(String clause, String title, String why) {
    return new Check(
        clause,
        title,
        talk -> {
          throw new Untestable(why);
        },
        why);
  }

  /** A clause that is looked at in everything that comes. */
  static Check watched(String clause, String title) {
    return new Check(clause, title, talk -> "in all that came");
  }

  /** Asks that something holds. */
  static void require(boolean holds, String seen) throws Breach {
    if (!holds) {
      throw new Breach(seen);
    }
  }
}
