package org.jointwalk.cli;

import java.io.PrintStream;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;

/**
 * What happens when the program is asked to end, by Ctrl-C or by the system: a pass under way is
 * stopped where nothing is lost, for which it has a second, and the program ends with the code and
 * the words of its command. Without a pass under way the program ends at once. Any thread.
 */
final class Interruption {

  private static final int PATIENCE_MILLIS = 950;
  private static final int STOP_AGAIN_MILLIS = 50;

  private final BlockingQueue<Integer> ended = new ArrayBlockingQueue<>(1);
  private final PrintStream err;
  private volatile Optional<Runnable> stop = Optional.empty();

  private Interruption(PrintStream err) {
    this.err = err;
  }

  /** Watches until the program ends. */
  static Interruption ofThisProgram() {
    Interruption interruption = new Interruption(System.err);
    Runtime.getRuntime().addShutdownHook(new Thread(interruption::end, "interruption"));
    return interruption;
  }

  /**
   * A pass is under way, or is over.
   *
   * @param stops ends it, from any thread and as often as wanted; empty when it is over
   */
  void watch(Optional<Runnable> stops) {
    stop = stops;
  }

  /** Ends the program with the code of its command. */
  void exit(int code) {
    ended.add(code);
    System.exit(code);
  }

  private void end() {
    Optional<Runnable> pass = stop;
    if (pass.isPresent()) {
      Runtime.getRuntime().halt(code(pass.get()));
    }
  }

  private int code(Runnable pass) {
    for (int waited = 0; waited < PATIENCE_MILLIS; waited += STOP_AGAIN_MILLIS) {
      // Said again and again: a run that was just beginning may have passed over it.
      pass.run();
      try {
        Integer code = ended.poll(STOP_AGAIN_MILLIS, TimeUnit.MILLISECONDS);
        if (code != null) {
          return code;
        }
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        break;
      }
    }
    err.println(
        "Stopped without waiting any longer. What was kept is not lost: run the same command with"
            + " --resume.");
    return ExitCode.INTERRUPTED.number();
  }
}
