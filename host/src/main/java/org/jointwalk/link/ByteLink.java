package org.jointwalk.link;

import java.time.Duration;

/**
 * Bytes to and from a fixture. One thread at a time, except {@link #close}, which any thread may
 * call and which ends whatever waits.
 */
public interface ByteLink extends AutoCloseable {

  /** The line as its user calls it. */
  String name();

  /**
   * The bytes that have come since the last call, in pieces of any size.
   *
   * @param most how long to wait for the first of them
   * @return a new array; empty when none came in time
   * @throws LinkException {@link LinkException.Cause#GONE} when none can come any more
   */
  byte[] read(Duration most) throws LinkException;

  /**
   * Hands bytes to the line; returns when the line has taken them all.
   *
   * @param bytes not kept
   * @throws LinkException {@link LinkException.Cause#GONE} when the line is down, {@link
   *     LinkException.Cause#STUCK} when it did not take them in time; it is closed then
   */
  void write(byte[] bytes) throws LinkException;

  /** Gives the line back; does nothing when it was closed. */
  @Override
  void close();
}
