package org.jointwalk.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.regex.Pattern;

/**
 * Lines for the technician, with colours where they show. Meaning is never in the colour alone. Not
 * safe for use by several threads.
 */
final class Console {

  private static final Pattern CONTROL = Pattern.compile("\\p{Cc}+");
  private static final String BOLD = "\u001b[1m";
  private static final String YELLOW = "\u001b[1;33m";
  private static final String END = "\u001b[0m";

  private final PrintWriter out;
  private final boolean coloured;

  Console(PrintWriter out, boolean coloured) {
    this.out = out;
    this.coloured = coloured;
  }

  PrintWriter writer() {
    return out;
  }

  void line(String text) {
    out.println(clean(text));
  }

  /** A line that stands out. */
  void title(String text) {
    out.println(in(BOLD, clean(text)));
  }

  /** What could hurt someone; nothing when there is nothing to say. */
  void cautions(List<String> cautions) {
    if (!cautions.isEmpty()) {
      out.println(in(YELLOW, "CAUTION"));
      cautions.forEach(caution -> out.println("  " + caution));
    }
  }

  /** What to do now. */
  void next(String text) {
    out.println(in(BOLD, "NEXT") + "  " + clean(text));
  }

  /** One line, without what could steer the terminal: notes may come from anywhere. */
  static String clean(String text) {
    return CONTROL.matcher(text).replaceAll(" ");
  }

  private String in(String style, String text) {
    return coloured ? style + text + END : text;
  }
}
