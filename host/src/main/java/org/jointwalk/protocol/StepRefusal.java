package org.jointwalk.protocol;

import java.util.Optional;

/** Why a fixture did not take a step. */
public enum StepRefusal implements Coded {
  KIND(1, "the fixture has no range for this kind of step"),
  CHANNEL(2, "the fixture has no such channel"),
  UNDECLARED(3, "a channel was not declared"),
  TWICE(4, "one channel is on both sides"),
  TERMINAL(5, "a side is missing, or given where none may be"),
  SWITCHING(6, "the fixture cannot join these channels like this"),
  VOLTAGE(7, "the voltage is over its ceiling"),
  CURRENT(8, "the current is over its ceiling"),
  TIME(9, "it would take longer than the source may be on"),
  NOT_BARE(10, "the fixture has not proved that no board is behind these contacts"),
  POWER(11, "so many closed channels need more power than there is"),
  SETTING(12, "the setting was never sent"),
  SET(13, "the set of channels was never sent"),
  LIVE(14, "there is voltage where none should be");

  private final int code;
  private final String text;

  StepRefusal(int code, String text) {
    this.code = code;
    this.text = text;
  }

  @Override
  public int code() {
    return code;
  }

  /** In words, for the technician. */
  public String text() {
    return text;
  }

  /** The reason with a code, empty for one that this program does not know. */
  public static Optional<StepRefusal> of(int code) {
    return Coded.of(StepRefusal.class, code);
  }
}
