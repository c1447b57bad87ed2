package org.jointwalk.files;

import java.math.BigDecimal;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Set;

/**
 * Writes JSON whose line breaks are chosen entry by entry, so that maps differ by a line where a
 * position differs; numbers and texts come back exactly. For one thread and one text.
 */
final class JsonOut {

  /** Doubles that JSON has no number for; they are written as these words, in quotes. */
  static final Set<String> NOT_NUMBERS = Set.of("NaN", "Infinity", "-Infinity");

  private final StringBuilder text = new StringBuilder();
  private final Deque<Level> levels = new ArrayDeque<>();
  private final boolean airy;
  private boolean afterKey;

  private JsonOut(boolean airy) {
    this.airy = airy;
  }

  /** No white space at all. */
  static JsonOut compact() {
    return new JsonOut(false);
  }

  /** For people: spaces, and an entry a line where asked for. */
  static JsonOut airy() {
    return new JsonOut(true);
  }

  JsonOut object() {
    return open('{', '}', false);
  }

  JsonOut array() {
    return open('[', ']', false);
  }

  /** Opens an object with an entry a line. */
  JsonOut objectInLines() {
    return open('{', '}', true);
  }

  /** Opens an array with an item a line. */
  JsonOut arrayInLines() {
    return open('[', ']', true);
  }

  private JsonOut open(char open, char close, boolean lines) {
    entry();
    text.append(open);
    levels.push(new Level(close, lines && airy));
    return this;
  }

  /** Closes what was opened last. */
  JsonOut end() {
    Level level = levels.pop();
    if (level.lines && !level.empty) {
      newLine();
    }
    text.append(level.close);
    return this;
  }

  JsonOut key(String key) {
    entry();
    text.append(quoted(key)).append(airy ? ": " : ":");
    afterKey = true;
    return this;
  }

  JsonOut text(String value) {
    entry();
    text.append(quoted(value));
    return this;
  }

  JsonOut number(double value) {
    entry();
    text.append(Double.isFinite(value) ? shortest(value) : quoted(Double.toString(value)));
    return this;
  }

  JsonOut whole(long value) {
    entry();
    text.append(value);
    return this;
  }

  JsonOut flag(boolean value) {
    entry();
    text.append(value);
    return this;
  }

  JsonOut with(String key, String value) {
    return key(key).text(value);
  }

  JsonOut with(String key, double value) {
    return key(key).number(value);
  }

  JsonOut with(String key, long value) {
    return key(key).whole(value);
  }

  JsonOut with(String key, boolean value) {
    return key(key).flag(value);
  }

  JsonOut with(String key, Enum<?> value) {
    return key(key).text(Words.of(value));
  }

  JsonOut with(String key, Iterable<String> values) {
    key(key).array();
    values.forEach(this::text);
    return end();
  }

  private void entry() {
    if (afterKey) {
      afterKey = false;
      return;
    }
    Level level = levels.peek();
    if (level == null) {
      return;
    }
    if (!level.empty) {
      text.append(airy && !level.lines ? ", " : ",");
    }
    level.empty = false;
    if (level.lines) {
      newLine();
    }
  }

  private void newLine() {
    text.append('\n');
    long depth = levels.stream().filter(level -> level.lines).count();
    text.append("  ".repeat((int) depth));
  }

  @Override
  public String toString() {
    return text.toString();
  }

  /** Decimal digits that read back as the same double, without a needless exponent. */
  static String shortest(double value) {
    String plain = Double.toString(value);
    int exponent = plain.indexOf('E');
    if (exponent < 0) {
      return plain.endsWith(".0") ? plain.substring(0, plain.length() - 2) : plain;
    }
    BigDecimal exact = new BigDecimal(plain).stripTrailingZeros();
    int power = exact.precision() - exact.scale() - 1;
    if (power >= -5 && power < 12) {
      return exact.toPlainString();
    }
    return plain.replace(".0E", "e").replace('E', 'e');
  }

  /** A JSON string. Halves of a pair are escaped, since UTF-8 could not carry them. */
  static String quoted(String value) {
    StringBuilder quoted = new StringBuilder(value.length() + 2).append('"');
    for (int i = 0; i < value.length(); i++) {
      char c = value.charAt(i);
      if (c == '"' || c == '\\') {
        quoted.append('\\').append(c);
      } else if (c == '\n') {
        quoted.append("\\n");
      } else if (c == '\t') {
        quoted.append("\\t");
      } else if (c < ' ' || c == '\u2028' || c == '\u2029' || isHalf(value, i)) {
        quoted.append("\\u").append(String.format(java.util.Locale.ROOT, "%04x", (int) c));
      } else {
        quoted.append(c);
      }
    }
    return quoted.append('"').toString();
  }

  private static boolean isHalf(String value, int i) {
    char c = value.charAt(i);
    if (Character.isHighSurrogate(c)) {
      return i + 1 == value.length() || !Character.isLowSurrogate(value.charAt(i + 1));
    }
    return Character.isLowSurrogate(c)
        && (i == 0 || !Character.isHighSurrogate(value.charAt(i - 1)));
  }

  private static final class Level {
    private final char close;
    private final boolean lines;
    private boolean empty = true;

    private Level(char close, boolean lines) {
      this.close = close;
      this.lines = lines;
    }
  }
}
