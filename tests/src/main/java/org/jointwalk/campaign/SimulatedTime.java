package org.jointwalk.campaign;

import java.time.Duration;
import org.jointwalk.link.Ticks;

/** Time that passes only where something waits for it. Any thread. */
final class SimulatedTime implements Ticks {

  private static final long START = 1_000_000_000L;

  private long now = START;

  @Override
  public synchronized long nanos() {
    return now;
  }

  /** Microseconds since the start. */
  long micros() {
    return (nanos() - START) / 1000;
  }

  @Override
  public synchronized void pass(Duration most) {
    now += most.toNanos();
  }

  @Override
  public void wake() {
    // Nobody waits.
  }
}
