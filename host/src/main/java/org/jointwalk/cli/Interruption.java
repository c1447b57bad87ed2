package org.jointwalk.cli;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.jointwalk.fixture.Fixture;

/**
 * Stops the fixture when the program is asked to end in mid-pass, waits at most a second for what
 * is being kept, and ends with the code of an interrupted pass.
 */
final class Interruption {

  private static final long PATIENCE_SECONDS = 1;

  private final CountDownLatch done = new CountDownLatch(1);
  private final Thread hook;

  private Interruption(Fixture fixture) {
    hook =
        new Thread(
            () -> {
              fixture.stop();
              boolean kept = false;
              try {
                kept = done.await(PATIENCE_SECONDS, TimeUnit.SECONDS);
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
              System.err.println(
                  kept
                      ? "Stopped. Nothing is lost: run the same command with --resume."
                      : "Stopped without waiting. What was kept is not lost: use --resume.");
              Runtime.getRuntime().halt(ExitCode.INTERRUPTED.number());
            },
            "interruption");
  }

  /** Watches over a fixture until {@link #over}. */
  static Interruption of(Fixture fixture) {
    Interruption interruption = new Interruption(fixture);
    Runtime.getRuntime().addShutdownHook(interruption.hook);
    return interruption;
  }

  /** The pass has ended, by itself or not. */
  void over() {
    done.countDown();
    try {
      Runtime.getRuntime().removeShutdownHook(hook);
    } catch (IllegalStateException e) {
      // The program is ending already; the hook is at work.
      return;
    }
  }
}
