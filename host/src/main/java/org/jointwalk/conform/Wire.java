package org.jointwalk.conform;

import java.io.IOException;
import java.time.Duration;

/** A line to a fixture, and the time on it. One thread. */
public interface Wire {

  /**
   * The bytes that have come since the last call.
   *
   * @param most how long to wait for the first of them
   * @return a new array; empty when none came in time
   * @throws IOException when none can come any more
   */
  byte[] read(Duration most) throws IOException;

  /**
   * Hands bytes to the line.
   *
   * @param bytes not kept
   * @throws IOException when the line does not take them
   */
  void write(byte[] bytes) throws IOException;

  /** Lets time pass without taking what comes. */
  void pass(Duration most) throws IOException;

  /** Nanoseconds since some moment; never less than before. */
  long nanos();
}
