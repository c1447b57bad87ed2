package org.jointwalk.protocol;

import java.util.Arrays;
import java.util.List;

/** Bytes on the line made by hand, right or wrong. */
public final class Lines {

  private Lines() {}

  /** A raw frame with a good check around any payload, of any length. */
  public static Bytes raw(int type, int session, int number, Bytes payload) {
    return checked(new Out().u8(type).u16(session).u16(number).bytes(payload).done());
  }

  /** Any bytes with their check behind them. */
  public static Bytes checked(Bytes content) {
    byte[] bytes = content.toArray();
    return new Out().bytes(content).u32(Crc.of(bytes, 0, bytes.length)).done();
  }

  /** Any bytes, encoded and delimited. */
  public static Bytes wire(Bytes raw) {
    byte[] encoded = Cobs.encode(raw.toArray());
    return Bytes.of(Arrays.copyOf(encoded, encoded.length + 1));
  }

  public static Bytes join(Bytes... parts) {
    Out out = new Out();
    List.of(parts).forEach(out::bytes);
    return out.done();
  }

  public static Bytes repeat(int value, int count) {
    byte[] bytes = new byte[count];
    Arrays.fill(bytes, (byte) value);
    return Bytes.of(bytes);
  }

  /** Bytes from one value on, each one more than the last. */
  public static Bytes rising(int first, int count) {
    byte[] bytes = new byte[count];
    for (int i = 0; i < count; i++) {
      bytes[i] = (byte) (first + i);
    }
    return Bytes.of(bytes);
  }

  public static Bytes part(Bytes bytes, int from, int to) {
    return Bytes.of(Arrays.copyOfRange(bytes.toArray(), from, to));
  }

  /** The same with one byte changed. */
  public static Bytes changed(Bytes bytes, int at, int value) {
    byte[] copy = bytes.toArray();
    copy[at] = (byte) value;
    return Bytes.of(copy);
  }

  public static List<Received> feed(Parser parser, Bytes bytes) {
    return parser.feed(bytes.toArray(), 0, bytes.size());
  }

  /** The end of the line that receives a message. */
  public static Parser.End receiver(int type) {
    return type < 0x80 ? Parser.End.FIXTURE : Parser.End.HOST;
  }
}
