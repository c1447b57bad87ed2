package org.jointwalk.files;

/**
 * Keeps spreadsheets from taking a text for a formula, which some would even run: a text that
 * begins like one gets an apostrophe in front. A net named {@code +5V} is the everyday case.
 * Stateless.
 */
final class FormulaGuard {

  /** What a formula begins with, its full-width forms, and the guard itself. */
  private static final String RISKY = "=+-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20'";

  private FormulaGuard() {}

  static String on(String text) {
    return isRisky(text) ? "'" + text : text;
  }

  static String off(String cell) {
    return cell.startsWith("'") && isRisky(cell.substring(1)) ? cell.substring(1) : cell;
  }

  private static boolean isRisky(String text) {
    return !text.isEmpty() && RISKY.indexOf(text.charAt(0)) >= 0;
  }
}
