package org.jointwalk.simulator;

/**
 * What a source does from now on.
 *
 * @param mode of what it drives
 * @param level current in ampere or voltage in volt, negative for the other polarity
 * @param limit the largest voltage or current that it gives for that
 */
record Source(Mode mode, double level, double limit) {

  static final Source OFF = new Source(Mode.OFF, 0, 0);

  /** What is driven, or laid across the terminals. */
  enum Mode {
    OFF,
    CURRENT,
    VOLTAGE,
    LOAD,
    DRAIN,
    /** A voltage between two buses, to see whether anything joins them. */
    PROBE
  }

  /** Whether current flows from the high side to the low side. */
  boolean plus() {
    return level >= 0;
  }
}
