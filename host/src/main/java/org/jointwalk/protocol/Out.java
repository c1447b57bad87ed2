package org.jointwalk.protocol;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;

/** Puts a payload together from front to back. Not thread-safe. */
final class Out {

  private byte[] bytes = new byte[64];
  private int size;

  Out u8(int value) {
    if (size == bytes.length) {
      bytes = Arrays.copyOf(bytes, 2 * size);
    }
    bytes[size++] = (byte) value;
    return this;
  }

  Out u16(int value) {
    return u8(value).u8(value >> 8);
  }

  Out u32(long value) {
    return u16((int) value).u16((int) (value >> 16));
  }

  Out u64(long value) {
    return u32(value).u32(value >> 32);
  }

  Out flag(boolean value) {
    return u8(value ? 1 : 0);
  }

  Out zeros(int count) {
    for (int i = 0; i < count; i++) {
      u8(0);
    }
    return this;
  }

  Out bytes(Bytes values) {
    for (int i = 0; i < values.size(); i++) {
      u8(values.at(i));
    }
    return this;
  }

  Out u16s(List<Integer> values) {
    values.forEach(this::u16);
    return this;
  }

  /** Text with its length in front. */
  Out text(String text) {
    byte[] encoded = text.getBytes(StandardCharsets.UTF_8);
    return u8(encoded.length).bytes(Bytes.of(encoded));
  }

  Bytes done() {
    return Bytes.of(bytes, 0, size);
  }
}
