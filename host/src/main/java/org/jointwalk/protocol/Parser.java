package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Makes frames of bytes that arrive in any pieces, and finds the next frame after whatever else
 * arrives. Holds at most one frame, whatever the bytes say. Not thread-safe.
 */
public final class Parser {

  private final End end;
  private State state = new Collecting();

  /** Which end of the line listens. */
  public enum End {
    HOST,
    FIXTURE;

    private boolean sends(int type) {
      boolean fromHost = type < 0x80;
      return fromHost == (this == HOST);
    }
  }

  /**
   * @param end where this parser stands; what only that end sends is dropped
   */
  public Parser(End end) {
    this.end = end;
  }

  /** What the bytes since the last delimiter are. */
  private sealed interface State {

    /** The state after one more byte that is no delimiter. */
    State take(byte value);

    /** What a delimiter completes, if anything. */
    Optional<Received> finish();
  }

  /** They may be a frame. */
  private final class Collecting implements State {

    private final byte[] bytes = new byte[Frame.MOST_ENCODED];
    private int size;

    @Override
    public State take(byte value) {
      if (size == bytes.length) {
        return new Skipping(size + 1);
      }
      bytes[size++] = value;
      return this;
    }

    @Override
    public Optional<Received> finish() {
      Optional<Received> received = size == 0 ? Optional.empty() : Optional.of(read(bytes, size));
      size = 0;
      return received;
    }
  }

  /** They are too many to be a frame. */
  private static final class Skipping implements State {

    private int size;

    private Skipping(int size) {
      this.size = size;
    }

    @Override
    public State take(byte value) {
      size = Math.min(size, Integer.MAX_VALUE - 1) + 1;
      return this;
    }

    @Override
    public Optional<Received> finish() {
      return Optional.of(new Received.Dropped(Received.Cause.OVERSIZE, size));
    }
  }

  /**
   * Takes the next bytes of the line.
   *
   * @param bytes that hold them
   * @param from index of the first
   * @param to index after the last
   * @return what was completed by them, in order
   */
  public List<Received> feed(byte[] bytes, int from, int to) {
    List<Received> received = new ArrayList<>();
    for (int i = from; i < to; i++) {
      if (bytes[i] != 0) {
        state = state.take(bytes[i]);
        continue;
      }
      state.finish().ifPresent(received::add);
      if (state instanceof Skipping) {
        state = new Collecting();
      }
    }
    return received;
  }

  private Received read(byte[] encoded, int size) {
    Optional<byte[]> decoded = Cobs.decode(encoded, 0, size);
    if (decoded.isEmpty()) {
      return new Received.Dropped(Received.Cause.COBS, size);
    }
    byte[] raw = decoded.get();
    if (raw.length < Frame.LEAST_RAW || raw.length > Frame.MOST_RAW) {
      return new Received.Dropped(Received.Cause.LENGTH, size);
    }
    int checkAt = raw.length - Crc.SIZE;
    try {
      long check = new In(raw, checkAt, raw.length).u32();
      if (check != Crc.of(raw, 0, checkAt)) {
        return new Received.Dropped(Received.Cause.CHECK, size);
      }
      In header = new In(raw, 0, Frame.HEADER);
      int type = header.u8();
      return end.sends(type)
          ? new Received.Dropped(Received.Cause.DIRECTION, size)
          : message(type, header.u16(), header.u16(), new In(raw, Frame.HEADER, checkAt), check);
    } catch (Malformed e) {
      throw new IllegalStateException("a raw frame of " + raw.length + " bytes has no header", e);
    }
  }

  private static Received message(int type, int session, int number, In payload, long check) {
    Refusal refusal;
    long detail;
    try {
      Frame frame = new Frame(session, number, Message.read(type, payload));
      return new Received.Whole(frame, check);
    } catch (Malformed e) {
      refusal = e.refusal();
      detail = e.detail();
    } catch (IllegalArgumentException e) {
      // The records know what cannot be; whatever they will not hold is a bad value.
      refusal = Refusal.BAD_VALUE;
      detail = 0;
    }
    return new Received.Unreadable(type, session, number, check, refusal, detail);
  }
}
