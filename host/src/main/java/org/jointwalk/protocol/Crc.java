package org.jointwalk.protocol;

import java.util.zip.CRC32C;

/** The check of a frame (M6). Stateless. */
final class Crc {

  /** Bytes that a check takes on the line. */
  static final int SIZE = 4;

  private Crc() {}

  /** CRC-32C of a part of these bytes, from 0 to 2^32 - 1. */
  static long of(byte[] bytes, int from, int to) {
    CRC32C crc = new CRC32C();
    crc.update(bytes, from, to - from);
    return crc.getValue();
  }
}
