package org.jointwalk.protocol;

import java.util.Optional;

/** What a fixture found wrong with a program; it ends the run. */
public enum ProgramFault implements Coded {
  UNREADABLE(1, "a streamed message has a wrong length or value"),
  UNKNOWN(2, "a streamed message has something that the fixture would have to understand"),
  INDEX(3, "steps do not follow the ones before, or lie beyond the last"),
  ROOM(4, "more steps than the fixture has room for"),
  SLOT(5, "a slot that the fixture does not have, or a change of one that was never filled"),
  IN_USE(6, "a slot was changed that a step still needs");

  private final int code;
  private final String text;

  ProgramFault(int code, String text) {
    this.code = code;
    this.text = text;
  }

  @Override
  public int code() {
    return code;
  }

  /** In words. */
  public String text() {
    return text;
  }

  /** The fault with a code, empty for one that this program does not know. */
  public static Optional<ProgramFault> of(int code) {
    return Coded.of(ProgramFault.class, code);
  }
}
