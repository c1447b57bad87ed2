package org.jointwalk.protocol;

import java.nio.charset.StandardCharsets;

/** What a field can hold. Stateless. */
final class Ranges {

  static final int U8 = 0xFF;
  static final int U16 = 0xFFFF;
  static final long U32 = 0xFFFF_FFFFL;

  private Ranges() {}

  /**
   * @throws IllegalArgumentException when a value is outside
   */
  static void check(String what, long value, long least, long most) {
    if (value < least || value > most) {
      throw new IllegalArgumentException(
          what + " is " + value + "; allowed is " + least + " to " + most);
    }
  }

  static void u8(String what, int value) {
    check(what, value, 0, U8);
  }

  static void u16(String what, int value) {
    check(what, value, 0, U16);
  }

  static void u32(String what, long value) {
    check(what, value, 0, U32);
  }

  /** A volt or an amp (M3). */
  static void measure(String what, int value) {
    check(what, value, -Integer.MAX_VALUE, Integer.MAX_VALUE);
  }

  static void text(String what, String text, int least, int most) {
    check("the length of " + what, text.getBytes(StandardCharsets.UTF_8).length, least, most);
    if (!isPlain(text)) {
      throw new IllegalArgumentException(what + " has control characters in it");
    }
  }

  /** Whether a text has no control characters (M4). */
  static boolean isPlain(String text) {
    return text.chars().allMatch(c -> c >= 0x20 && c != 0x7F);
  }
}
