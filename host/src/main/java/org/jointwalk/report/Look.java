package org.jointwalk.report;

/**
 * How text may look where it is read.
 *
 * @param columns width of a line, at least 40
 * @param plain ASCII only, without glyphs
 * @param colour whether to colour
 */
public record Look(int columns, boolean plain, boolean colour) {

  /** The width when nobody tells. */
  public static final int COLUMNS = 80;

  public Look {
    if (columns < 40) {
      throw new IllegalArgumentException("a line needs 40 columns, not " + columns);
    }
    if (plain && colour) {
      throw new IllegalArgumentException("plain text has no colour");
    }
  }

  /** 80 columns of ASCII, for files and for those who ask for it. */
  public static Look asPlain() {
    return new Look(COLUMNS, true, false);
  }

  /**
   * The look of a console.
   *
   * @param terminal whether a person reads it and not a file or another program
   * @param noColour whether the surroundings ask for no colour
   * @param plain whether plain text was asked for
   */
  public static Look ofConsole(boolean terminal, boolean noColour, boolean plain) {
    return new Look(COLUMNS, plain, terminal && !noColour && !plain);
  }
}
