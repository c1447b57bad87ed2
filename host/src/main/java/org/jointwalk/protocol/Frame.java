package org.jointwalk.protocol;

import java.util.Arrays;

/**
 * One message on its way.
 *
 * @param session low 16 bits of the session's nonce
 * @param number of the request, in the stream or among the records; 0 where the message has none
 * @param message what it carries
 */
public record Frame(int session, int number, Message message) {

  /** Header and check around a payload, in bytes. */
  static final int HEADER = 5;

  /** Shortest and longest frame before it is encoded, in bytes (M5). */
  static final int LEAST_RAW = HEADER + Crc.SIZE;

  static final int MOST_RAW = 250;

  /** Longest payload, in bytes. */
  public static final int MOST_PAYLOAD = MOST_RAW - LEAST_RAW;

  /** Longest frame on the line without its delimiter, in bytes. */
  static final int MOST_ENCODED = MOST_RAW + 1;

  public Frame {
    Ranges.u16("session", session);
    Ranges.u16("number", number);
    long nonce =
        message instanceof Request.Hello hello
            ? hello.nonce()
            : message instanceof Answer.Welcome welcome ? welcome.nonce() : session;
    if ((nonce & Ranges.U16) != session) {
      throw new IllegalArgumentException(
          "a frame of session " + session + " cannot carry the nonce " + nonce);
    }
  }

  /** The frame before it is encoded, its check included. */
  Bytes raw() {
    Bytes payload = message.payload();
    Ranges.check("the length of a payload", payload.size(), 0, MOST_PAYLOAD);
    byte[] checked =
        new Out()
            .u8(message.type())
            .u16(session)
            .u16(number)
            .bytes(payload)
            .zeros(Crc.SIZE)
            .done()
            .toArray();
    int end = checked.length - Crc.SIZE;
    long crc = Crc.of(checked, 0, end);
    for (int i = 0; i < Crc.SIZE; i++) {
      checked[end + i] = (byte) (crc >> (8 * i));
    }
    return Bytes.of(checked);
  }

  /** What goes over the line, the delimiter included; never longer than 252 bytes. */
  public byte[] encode() {
    byte[] encoded = Cobs.encode(raw().toArray());
    return Arrays.copyOf(encoded, encoded.length + 1);
  }

  /** The check, by which a fixture knows a repeated request (M30). */
  public long check() {
    byte[] raw = raw().toArray();
    return Crc.of(raw, 0, raw.length - Crc.SIZE);
  }
}
