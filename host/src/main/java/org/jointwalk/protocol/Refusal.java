package org.jointwalk.protocol;

import java.util.Optional;

/** Why a request was refused. */
public enum Refusal implements Coded {
  UNKNOWN_TYPE(1, "the fixture does not know this request"),
  BAD_LENGTH(2, "the request has a wrong length"),
  BAD_VALUE(3, "the request has a wrong value"),
  NO_SESSION(4, "the fixture does not know this session: it has started anew or serves another"),
  NUMBER_REUSED(5, "the number of the request was used for another one"),
  NUMBER_OLD(6, "the request is an old one"),
  VERSION(7, "the fixture speaks other versions of the protocol"),
  BUSY(8, "another program is measuring with the fixture"),
  RUN_UNDER_WAY(9, "a run is under way"),
  LID_OPEN(10, "the lid is open"),
  NOT_DECLARED(11, "the fixture was not told what is clamped"),
  OTHER_DECLARATION(12, "the fixture was told something else about what is clamped"),
  FAULT(13, "something in the fixture is broken");

  private final int code;
  private final String text;

  Refusal(int code, String text) {
    this.code = code;
    this.text = text;
  }

  @Override
  public int code() {
    return code;
  }

  /** In words, as the middle of a sentence. */
  public String text() {
    return text;
  }

  /** The refusal with a code, empty for one that this program does not know. */
  public static Optional<Refusal> of(int code) {
    return Coded.of(Refusal.class, code);
  }
}
