package org.jointwalk.protocol;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** Takes a payload apart from front to back; nothing is read beyond its end. Not thread-safe. */
final class In {

  private final byte[] bytes;
  private final int from;
  private final int to;
  private int at;

  In(byte[] bytes, int from, int to) {
    this.bytes = bytes;
    this.from = from;
    this.to = to;
    this.at = from;
  }

  /** Bytes that are left. */
  int left() {
    return to - at;
  }

  /** Asks that the whole payload has a length. */
  void exactly(int size) throws Malformed {
    if (to - from != size) {
      throw length();
    }
  }

  /** Asks that nothing is left. */
  void end() throws Malformed {
    if (at != to) {
      throw length();
    }
  }

  int u8() throws Malformed {
    need(1);
    return bytes[at++] & 0xFF;
  }

  int u16() throws Malformed {
    return u8() | (u8() << 8);
  }

  long u32() throws Malformed {
    return u16() | ((long) u16() << 16);
  }

  long u64() throws Malformed {
    return u32() | (u32() << 32);
  }

  /** A volt or an amp. */
  int measure() throws Malformed {
    int value = (int) u32();
    ask(value != Integer.MIN_VALUE);
    return value;
  }

  boolean flag() throws Malformed {
    int value = u8();
    ask(value <= 1);
    return value == 1;
  }

  void zeros(int count) throws Malformed {
    for (int i = 0; i < count; i++) {
      ask(u8() == 0);
    }
  }

  Bytes bytes(int count) throws Malformed {
    need(count);
    at += count;
    return Bytes.of(bytes, at - count, at);
  }

  List<Integer> u16s(int count) throws Malformed {
    need(2 * count);
    List<Integer> values = new ArrayList<>(count);
    for (int i = 0; i < count; i++) {
      values.add(u16());
    }
    return values;
  }

  /** Text with its length in front. */
  String text(int least, int most) throws Malformed {
    int size = u8();
    ask(size >= least && size <= most);
    return text(bytes(size));
  }

  /** Bytes as text (M4). */
  static String text(Bytes bytes) throws Malformed {
    String text;
    try {
      text =
          StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes.toArray())).toString();
    } catch (CharacterCodingException e) {
      throw new Malformed(Refusal.BAD_VALUE, 0);
    }
    ask(Ranges.isPlain(text));
    return text;
  }

  /** Asks that a value is one of those allowed. */
  static void ask(boolean allowed) throws Malformed {
    if (!allowed) {
      throw new Malformed(Refusal.BAD_VALUE, 0);
    }
  }

  private void need(int count) throws Malformed {
    if (count > left()) {
      throw length();
    }
  }

  private Malformed length() {
    return new Malformed(Refusal.BAD_LENGTH, to - from);
  }
}
