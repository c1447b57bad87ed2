package org.jointwalk.protocol;

import java.util.Arrays;
import java.util.HexFormat;

/** Bytes that do not change. Immutable; equal by content. */
public final class Bytes {

  /** No bytes. */
  public static final Bytes NONE = new Bytes(new byte[0]);

  private final byte[] content;

  private Bytes(byte[] content) {
    this.content = content;
  }

  /** A copy of these bytes. */
  public static Bytes of(byte[] content) {
    return new Bytes(content.clone());
  }

  /** A copy of a part of these bytes. */
  static Bytes of(byte[] content, int from, int to) {
    return new Bytes(Arrays.copyOfRange(content, from, to));
  }

  /**
   * Bytes written as digits.
   *
   * @param hex two digits a byte, without anything between
   * @throws IllegalArgumentException when that is not what it is
   */
  public static Bytes ofHex(String hex) {
    return new Bytes(HexFormat.of().parseHex(hex));
  }

  /** How many. */
  public int size() {
    return content.length;
  }

  /** One of them, from 0 to 255. */
  public int at(int index) {
    return content[index] & 0xFF;
  }

  /** A copy to keep or to change. */
  public byte[] toArray() {
    return content.clone();
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Bytes bytes && Arrays.equals(content, bytes.content);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(content);
  }

  /** As hexadecimal digits. */
  @Override
  public String toString() {
    return HexFormat.of().formatHex(content);
  }
}
