package org.jointwalk.link;

import java.time.Duration;

/** Time that passes only where something waits for it. Any thread. */
final class HandTicks implements Ticks {

  private long now = 1_000_000_000L;

  @Override
  public synchronized long nanos() {
    return now;
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
