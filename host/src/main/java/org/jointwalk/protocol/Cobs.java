package org.jointwalk.protocol;

import java.util.Arrays;
import java.util.Optional;

/**
 * Consistent Overhead Byte Stuffing (Cheshire and Baker, IEEE/ACM Transactions on Networking 7(2),
 * 1999): takes the zeros out of data so that a zero can end it (M7 to M9). Stateless.
 */
final class Cobs {

  /** The code of a block that no zero follows. */
  private static final int FULL = 0xFF;

  private Cobs() {}

  /** Data without its zeros, without the delimiter; at most one byte in 254 longer, and one. */
  static byte[] encode(byte[] data) {
    byte[] encoded = new byte[data.length + data.length / (FULL - 1) + 1];
    int codeAt = 0;
    int next = 1;
    for (int i = 0; i < data.length; i++) {
      if (data[i] != 0) {
        encoded[next++] = data[i];
      }
      boolean full = next - codeAt == FULL;
      if (data[i] == 0 || (full && i + 1 < data.length)) {
        encoded[codeAt] = (byte) (next - codeAt);
        codeAt = next++;
      }
    }
    encoded[codeAt] = (byte) (next - codeAt);
    return Arrays.copyOf(encoded, next);
  }

  /** Data again, or empty when this is no encoding; the delimiter is not part of it. */
  static Optional<byte[]> decode(byte[] encoded, int from, int to) {
    byte[] data = new byte[Math.max(0, to - from)];
    int size = 0;
    int at = from;
    while (at < to) {
      int code = encoded[at++] & 0xFF;
      if (code == 0 || at + code - 1 > to) {
        return Optional.empty();
      }
      for (int end = at + code - 1; at < end; at++) {
        if (encoded[at] == 0) {
          return Optional.empty();
        }
        data[size++] = encoded[at];
      }
      if (code != FULL && at < to) {
        data[size++] = 0;
      }
    }
    return from < to ? Optional.of(Arrays.copyOf(data, size)) : Optional.empty();
  }
}
