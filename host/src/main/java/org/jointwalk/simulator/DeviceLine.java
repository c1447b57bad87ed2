package org.jointwalk.simulator;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import org.jointwalk.protocol.Frame;
import org.jointwalk.protocol.Parser;
import org.jointwalk.protocol.Received;

/**
 * One line of a {@link Device}: what has come and was not looked at, what is to go and was not
 * fetched. Both are bounded, as in a fixture with little memory. Not thread-safe.
 */
public final class DeviceLine {

  /** What the host may have on its way, in bytes. */
  static final int WINDOW = 1_008;

  private static final int INCOMING = 2 * WINDOW;
  private static final int OUTGOING = 8_192;
  private static final int FRAME = 252;
  private static final int LOOK = 64;

  private Parser parser = new Parser(Parser.End.FIXTURE);
  private final Deque<Byte> incoming = new ArrayDeque<>();
  private final Deque<byte[]> frames = new ArrayDeque<>();
  private final Deque<Received> received = new ArrayDeque<>();
  private int begun;
  private int queued;
  private long overrun;
  private boolean closed;

  DeviceLine() {}

  /** Bytes that have room now. */
  public int room() {
    return INCOMING - incoming.size();
  }

  /** Takes bytes from the host; those that have no room are lost and counted. */
  public void take(byte[] bytes) {
    for (byte value : bytes) {
      if (room() > 0) {
        incoming.add(value);
      } else {
        overrun++;
      }
    }
  }

  /** All bytes for the host that were not fetched yet. */
  public byte[] outgoing() {
    return outgoing(Integer.MAX_VALUE);
  }

  /**
   * The next bytes for the host, which are then gone.
   *
   * @param most how many at the most
   */
  public byte[] outgoing(int most) {
    byte[] all = new byte[Math.min(most, queued)];
    int at = 0;
    while (at < all.length) {
      byte[] first = frames.element();
      int part = Math.min(first.length - begun, all.length - at);
      System.arraycopy(first, begun, all, at, part);
      at += part;
      begun += part;
      if (begun == first.length) {
        frames.remove();
        begun = 0;
      }
    }
    queued -= all.length;
    return all;
  }

  /** The line is gone, and nothing comes or goes any more. */
  public void close() {
    closed = true;
  }

  boolean closed() {
    return closed;
  }

  /** Bytes that were lost since this was asked last. */
  long overrun() {
    long lost = overrun;
    overrun = 0;
    return lost;
  }

  /** The next thing that came, as long as an answer has room. */
  Deque<Received> next() {
    if (received.isEmpty() && OUTGOING - queued >= 2 * FRAME) {
      while (!incoming.isEmpty() && received.isEmpty()) {
        byte[] some = new byte[Math.min(LOOK, incoming.size())];
        for (int i = 0; i < some.length; i++) {
          some[i] = incoming.remove();
        }
        List<Received> now = parser.feed(some, 0, some.length);
        received.addAll(now);
      }
    }
    return received;
  }

  void send(Frame frame) {
    byte[] wire = frame.encode();
    frames.add(wire);
    queued += wire.length;
  }

  /** Takes back what was not fetched; half a frame is ended, so that the next one can be read. */
  void takeBack() {
    boolean half = begun > 0;
    frames.clear();
    begun = 0;
    queued = 0;
    if (half) {
      frames.add(new byte[1]);
      queued = 1;
    }
  }

  /** The fixture starts anew. */
  void reset() {
    incoming.clear();
    received.clear();
    frames.clear();
    begun = 0;
    queued = 0;
    overrun = 0;
    parser = new Parser(Parser.End.FIXTURE);
  }

  /** Whether so many frames have room, and what the end of a run and an answer need besides. */
  boolean hasRoom(int more) {
    return OUTGOING - queued >= (more + 6) * FRAME;
  }
}
