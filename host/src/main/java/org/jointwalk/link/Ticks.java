package org.jointwalk.link;

import java.time.Duration;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;

/**
 * Time as a line needs it: how much has passed, never what the clock on the wall says, which may be
 * set. Any thread.
 */
public interface Ticks {

  /** Nanoseconds since some moment; never less than before. */
  long nanos();

  /**
   * Lets time pass.
   *
   * @param most how much; it is less when somebody calls {@link #wake}, or did so before
   */
  void pass(Duration most);

  /** Ends a {@link #pass} that is under way, or else the next one. */
  void wake();

  /** The time of this computer. */
  static Ticks ofThisComputer() {
    Semaphore woken = new Semaphore(0);
    return new Ticks() {

      @Override
      public long nanos() {
        return System.nanoTime();
      }

      @Override
      public void pass(Duration most) {
        try {
          if (woken.tryAcquire(most.toNanos(), TimeUnit.NANOSECONDS)) {
            woken.drainPermits();
          }
        } catch (InterruptedException e) {
          Thread.currentThread().interrupt();
        }
      }

      @Override
      public void wake() {
        woken.release();
      }
    };
  }
}
