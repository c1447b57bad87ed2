package org.jointwalk.report;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;

/**
 * Lines as they are written: wrapped, aligned, coloured where that is wanted. What people typed
 * cannot steer the terminal. Not safe for use by several threads.
 */
final class Paper {

  /** How a line stands out. */
  enum Ink {
    NONE(""),
    BOLD("\u001b[1m"),
    GOOD("\u001b[1;32m"),
    CARE("\u001b[1;33m"),
    FAULT("\u001b[1;31m");

    private final String code;

    Ink(String code) {
      this.code = code;
    }
  }

  private static final String RESET = "\u001b[0m";
  private static final int LABEL = 11;

  private final Look look;
  private final StringBuilder text = new StringBuilder();

  Paper(Look look) {
    this.look = look;
  }

  /** What stands between two things on one line. */
  String dot() {
    return look.plain() ? " - " : " \u00b7 ";
  }

  /** Give or take. */
  String plusMinus() {
    return look.plain() ? "+-" : "\u00b1";
  }

  Paper blank() {
    text.append('\n');
    return this;
  }

  Paper line(String words) {
    return line(words, Ink.NONE);
  }

  Paper line(String words, Ink ink) {
    for (String line : wrapped(words, look.columns())) {
      write(line, ink);
    }
    return this;
  }

  /** A label with what it says, one item after the other, each beginning a line. */
  Paper field(String label, List<String> items) {
    return field(label, LABEL, items);
  }

  /** A label in a column of a given width; a longer label gets a line of its own. */
  Paper field(String label, int width, List<String> items) {
    String head = clean(label);
    if (head.length() >= width) {
      write(head, Ink.BOLD);
      head = "";
    }
    for (String item : items) {
      for (String line : wrapped(item, look.columns() - width)) {
        text.append(inked(head, Ink.BOLD)).append(" ".repeat(width - head.length()));
        write(line, Ink.NONE);
        head = "";
      }
    }
    return this;
  }

  /** A label with a list, each item marked and its further lines drawn in. */
  Paper list(String label, List<String> items) {
    String head = clean(label);
    for (String item : items) {
      String mark = "- ";
      for (String line : wrapped(item, look.columns() - LABEL - mark.length())) {
        text.append(inked(head, Ink.BOLD)).append(" ".repeat(LABEL - head.length()));
        write(mark + line, Ink.NONE);
        head = "";
        mark = "  ";
      }
    }
    return this;
  }

  String text() {
    return text.toString();
  }

  private void write(String line, Ink ink) {
    text.append(inked(line, ink)).append('\n');
  }

  private String inked(String words, Ink ink) {
    return look.colour() && !words.isEmpty() && ink != Ink.NONE ? ink.code + words + RESET : words;
  }

  /** Words in lines of so many columns. */
  List<String> wrapped(String words, int columns) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : clean(words).split(" ", -1)) {
      String rest = word;
      if (!line.isEmpty() && line.length() + 1 + rest.length() > columns) {
        lines.add(line.toString().stripTrailing());
        line.setLength(0);
      } else if (!line.isEmpty()) {
        line.append(' ');
      }
      while (rest.length() > columns) {
        lines.add(rest.substring(0, columns));
        rest = rest.substring(columns);
      }
      line.append(rest);
    }
    lines.add(line.toString().stripTrailing());
    return lines;
  }

  /** Without control characters, and in ASCII when that was asked for. */
  private String clean(String words) {
    String safe = words.replaceAll("\\p{Cntrl}+", " ");
    if (!look.plain()) {
      return safe;
    }
    return Normalizer.normalize(safe, Normalizer.Form.NFKD)
        .replaceAll("\\p{M}+", "")
        .replaceAll("[^\\x20-\\x7e]", "?");
  }
}
