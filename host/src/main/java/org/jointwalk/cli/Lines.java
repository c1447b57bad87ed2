package org.jointwalk.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.function.Supplier;

/**
 * What somebody types while something else goes on. A wait for a key cannot be ended, so another
 * thread has it. Any thread.
 */
final class Lines {

  private final BlockingQueue<Optional<String>> typed = new LinkedBlockingQueue<>();

  /**
   * Begins to listen.
   *
   * @param line waits for the next line; empty when nobody will type any more
   */
  static Lines of(Supplier<Optional<String>> line) {
    Lines lines = new Lines();
    Thread thread =
        new Thread(
            () -> {
              Optional<String> next;
              do {
                next = line.get();
                lines.typed.add(next);
              } while (next.isPresent());
            },
            "listens to the keyboard");
    thread.setDaemon(true);
    thread.start();
    return lines;
  }

  /** Somebody who never types. */
  static Lines none() {
    Lines lines = new Lines();
    lines.end();
    return lines;
  }

  /** What was typed since the last call, without empty lines. */
  List<String> sofar() {
    List<Optional<String>> taken = new ArrayList<>();
    typed.drainTo(taken);
    if (taken.stream().anyMatch(Optional::isEmpty)) {
      end();
    }
    return taken.stream().flatMap(Optional::stream).filter(text -> !text.isBlank()).toList();
  }

  /** Waits for a line; false when nobody will type any more. */
  boolean await() {
    try {
      Optional<String> next = typed.take();
      if (next.isEmpty()) {
        end();
      }
      return next.isPresent();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  /** Whoever waits is told that nobody will type any more. */
  void end() {
    typed.add(Optional.empty());
  }
}
