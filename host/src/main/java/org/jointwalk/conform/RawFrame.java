package org.jointwalk.conform;

import java.util.Arrays;
import java.util.Optional;
import java.util.zip.CRC32C;
import org.jointwalk.protocol.Bytes;
import org.jointwalk.protocol.Message;

/**
 * A frame of any content, made and read by this room's own hand.
 *
 * @param type whichever
 * @param session in the header
 * @param number in the header
 * @param payload whatever
 */
record RawFrame(int type, int session, int number, Bytes payload) {

  private static final int HEADER = 5;
  private static final int CHECK = 4;
  private static final int FULL = 0xFF;

  static RawFrame of(int session, int number, Message message) {
    return new RawFrame(message.type(), session, number, message.payload());
  }

  /** Header, payload and check. */
  byte[] raw() {
    byte[] raw = new byte[HEADER + payload.size() + CHECK];
    raw[0] = (byte) type;
    raw[1] = (byte) session;
    raw[2] = (byte) (session >> 8);
    raw[3] = (byte) number;
    raw[4] = (byte) (number >> 8);
    System.arraycopy(payload.toArray(), 0, raw, HEADER, payload.size());
    check(raw);
    return raw;
  }

  /** Writes the right check into the last four bytes. */
  static void check(byte[] raw) {
    CRC32C crc = new CRC32C();
    crc.update(raw, 0, raw.length - CHECK);
    for (int i = 0; i < CHECK; i++) {
      raw[raw.length - CHECK + i] = (byte) (crc.getValue() >> (8 * i));
    }
  }

  /** What goes over the line, with its delimiter. */
  byte[] wire() {
    return wire(raw());
  }

  /** Any bytes as a frame on the line, with the delimiter. */
  static byte[] wire(byte[] raw) {
    byte[] encoded = new byte[raw.length + raw.length / (FULL - 1) + 2];
    int codeAt = 0;
    int next = 1;
    for (int i = 0; i < raw.length; i++) {
      if (raw[i] != 0) {
        encoded[next++] = raw[i];
      }
      if (raw[i] == 0 || (next - codeAt == FULL && i + 1 < raw.length)) {
        encoded[codeAt] = (byte) (next - codeAt);
        codeAt = next++;
      }
    }
    encoded[codeAt] = (byte) (next - codeAt);
    return Arrays.copyOf(encoded, next + 1);
  }

  /** What an encoding without its delimiter stands for; empty when it is none. */
  static Optional<byte[]> decoded(byte[] encoded) {
    byte[] data = new byte[encoded.length];
    int size = 0;
    int at = 0;
    while (at < encoded.length) {
      int code = encoded[at++] & 0xFF;
      if (code == 0 || at + code - 1 > encoded.length) {
        return Optional.empty();
      }
      System.arraycopy(encoded, at, data, size, code - 1);
      size += code - 1;
      at += code - 1;
      if (code != FULL && at < encoded.length) {
        data[size++] = 0;
      }
    }
    return encoded.length == 0 ? Optional.empty() : Optional.of(Arrays.copyOf(data, size));
  }

  /** The frame in raw bytes; empty when length or check are wrong. */
  static Optional<RawFrame> read(byte[] raw) {
    if (raw.length < HEADER + CHECK) {
      return Optional.empty();
    }
    byte[] checked = raw.clone();
    check(checked);
    if (!Arrays.equals(checked, raw)) {
      return Optional.empty();
    }
    return Optional.of(
        new RawFrame(
            raw[0] & 0xFF,
            (raw[1] & 0xFF) | (raw[2] & 0xFF) << 8,
            (raw[3] & 0xFF) | (raw[4] & 0xFF) << 8,
            Bytes.of(Arrays.copyOfRange(raw, HEADER, raw.length - CHECK))));
  }

  /** The same with other bytes from an offset of the payload on. */
  RawFrame with(int offset, int... values) {
    byte[] changed = payload.toArray();
    for (int i = 0; i < values.length; i++) {
      changed[offset + i] = (byte) values[i];
    }
    return new RawFrame(type, session, number, Bytes.of(changed));
  }

  /** The same with so many bytes of payload: cut off, or filled up with zeros. */
  RawFrame sized(int size) {
    return new RawFrame(type, session, number, Bytes.of(Arrays.copyOf(payload.toArray(), size)));
  }

  /** The same with bytes after its payload. */
  RawFrame plus(int... values) {
    return sized(payload.size() + values.length).with(payload.size(), values);
  }

  /** The same with another header. */
  RawFrame as(int otherSession, int otherNumber) {
    return new RawFrame(type, otherSession, otherNumber, payload);
  }

  /** The same with another type. */
  RawFrame typed(int other) {
    return new RawFrame(other, session, number, payload);
  }

  /** Four bytes of the payload as an unsigned number. */
  long u32(int offset) {
    long value = 0;
    for (int i = 3; i >= 0; i--) {
      value = value << 8 | payload.at(offset + i);
    }
    return value;
  }

  /** Two bytes of the payload as an unsigned number. */
  int u16(int offset) {
    return payload.at(offset) | payload.at(offset + 1) << 8;
  }

  /** The same with a number of four bytes at an offset. */
  RawFrame with32(int offset, long value) {
    return with(offset, (int) value, (int) (value >> 8), (int) (value >> 16), (int) (value >> 24));
  }
}
