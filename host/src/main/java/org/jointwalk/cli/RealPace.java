package org.jointwalk.cli;

import java.time.Duration;
import org.jointwalk.link.Ticks;
import org.jointwalk.simulator.Pace;

/** Simulated time that takes as long as it says. One thread. */
final class RealPace implements Pace {

  private final Ticks ticks;
  private final long begun;
  private double spent;

  private RealPace(Ticks ticks) {
    this.ticks = ticks;
    this.begun = ticks.nanos();
  }

  static Pace of() {
    return new RealPace(Ticks.ofThisComputer());
  }

  @Override
  public void spend(double deviceSeconds) {
    spent += deviceSeconds;
    long until = begun + (long) (spent * 1e9);
    long left = until - ticks.nanos();
    while (left > 0) {
      ticks.pass(Duration.ofNanos(left));
      left = until - ticks.nanos();
    }
  }
}
