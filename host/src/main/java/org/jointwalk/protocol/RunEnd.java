package org.jointwalk.protocol;

import java.util.Optional;

/** How a run ended. */
public enum RunEnd implements Coded {
  DONE(1, "every step has its result"),
  STOPPED(2, "it was stopped"),
  HOST_SILENT(3, "the fixture heard nothing from this program for a second"),
  LID_OPENED(4, "the lid was opened"),
  BUS_CHECK(5, "the fixture found a connection between its own buses"),
  BAD_PROGRAM(6, "the fixture could not use the program it was sent"),
  FAULT(7, "something in the fixture is broken"),
  LINE_LOST(8, "the line was closed"),
  BROWN_OUT(9, "the fixture's supply was too low"),
  TAKEN_OVER(10, "another program took the fixture over");

  private final int code;
  private final String text;

  RunEnd(int code, String text) {
    this.code = code;
    this.text = text;
  }

  @Override
  public int code() {
    return code;
  }

  /** In words, as the end of a sentence that begins with "the run ended:". */
  public String text() {
    return text;
  }

  /** The end with a code, empty for one that this program does not know and for 0. */
  public static Optional<RunEnd> of(int code) {
    return Coded.of(RunEnd.class, code);
  }
}
