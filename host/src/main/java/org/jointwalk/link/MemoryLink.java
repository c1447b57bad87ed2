package org.jointwalk.link;

import java.time.Duration;

/**
 * A line to something in the same program, on whatever time it is given: nothing waits, time passes
 * only where this line is waited for. One thread.
 */
public final class MemoryLink implements ByteLink {

  private static final Duration STEP = Duration.ofMillis(1);

  private final String name;
  private final Peer peer;
  private final Ticks ticks;
  private boolean closed;

  /** The other end. */
  public interface Peer {

    /** Takes what was sent. */
    void take(byte[] bytes);

    /** What it has to say at this time and was not read yet; empty for nothing. */
    byte[] give();

    /** Whether the line is there. */
    boolean connected();

    /** The line was closed from this end. */
    void hangUp();
  }

  /**
   * @param name as the user calls it
   * @param peer at the other end
   * @param ticks the time of both
   */
  public MemoryLink(String name, Peer peer, Ticks ticks) {
    this.name = name;
    this.peer = peer;
    this.ticks = ticks;
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public byte[] read(Duration most) throws LinkException {
    long until = ticks.nanos() + most.toNanos();
    byte[] bytes = given();
    while (bytes.length == 0 && ticks.nanos() - until < 0) {
      ticks.pass(STEP);
      bytes = given();
    }
    return bytes;
  }

  private byte[] given() throws LinkException {
    requireOpen();
    return peer.give();
  }

  @Override
  public void write(byte[] bytes) throws LinkException {
    requireOpen();
    peer.take(bytes.clone());
  }

  private void requireOpen() throws LinkException {
    if (closed || !peer.connected()) {
      throw new LinkException(name, LinkException.Cause.GONE, name + " has gone. Open it again.");
    }
  }

  @Override
  public void close() {
    if (!closed) {
      closed = true;
      peer.hangUp();
    }
  }
}
