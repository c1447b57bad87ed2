package org.jointwalk.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jointwalk.job.WatchEvent;
import org.jointwalk.pass.Watcher;

/**
 * Tells on the error stream which joint drops out, with a tone, and takes what is typed as notes.
 * Not safe for use by several threads, but for {@link #stop}.
 */
final class AtWatch implements Watcher {

  private static final char BELL = 7;

  private final PrintWriter err;
  private final boolean terminal;
  private final boolean tone;
  private final Lines lines;
  private final Shut shut;
  private boolean open;

  /** Looks whether the lid is shut. */
  @FunctionalInterface
  interface Shut {

    /** Whether it is; where no lid is known, it is. */
    boolean isShut();
  }

  /**
   * @param tone whether a dropout is heard
   * @param lines what is typed
   */
  AtWatch(PrintWriter err, boolean terminal, boolean tone, Lines lines, Shut shut) {
    this.err = err;
    this.terminal = terminal;
    this.tone = tone;
    this.lines = lines;
    this.shut = shut;
  }

  @Override
  public void looking(WatchEvent.Looking looking) {
    endLine();
    err.println(
        "Watching "
            + Sentences.count(looking.looks().size(), "joint")
            + ": "
            + looking.looks().stream()
                .map(WatchEvent.Look::position)
                .collect(Collectors.joining(", "))
            + ".");
    if (!looking.unseen().isEmpty()) {
      err.println(
          "Not watched, since nothing shows them in this set-up: "
              + String.join(", ", looking.unseen())
              + ".");
    }
    err.println(
        String.format(
            Locale.ROOT,
            "A dropout is a joint that is open, or reads %.3g ohm more than it did.",
            looking.aboveOhms()));
    if (terminal) {
      err.println(
          "Press gently, one place at a time, never on a chip or near a clamp. Type where you press"
              + " and Enter to keep a note. Ctrl-C ends the watch.");
    }
  }

  @Override
  public void changed(WatchEvent.Edge edge) {
    endLine();
    err.println(
        WatchText.time(edge.atSeconds())
            + "  "
            + edge.position()
            + (edge.out() ? " DROPPED OUT" : " is back"));
    if (edge.out() && tone && terminal) {
      err.print(BELL);
      err.flush();
    }
  }

  @Override
  public void progress(double seconds, long looks) {
    if (terminal) {
      err.print("\r" + WatchText.time(seconds) + "  " + looks + " looks   ");
      err.flush();
      open = true;
    }
  }

  @Override
  public List<String> notes() {
    return lines.sofar().stream().map(Console::clean).toList();
  }

  @Override
  public boolean lidOpened() {
    endLine();
    err.println(
        "The lid has opened, and the fixture has opened all its switches: it cannot watch like"
            + " this. What was seen is kept.");
    while (terminal) {
      err.println("Close the lid and press Enter to go on, or Ctrl-C to end.");
      err.flush();
      if (!lines.await()) {
        return false;
      }
      if (shut.isShut()) {
        return true;
      }
      err.println("The lid is still open.");
    }
    return false;
  }

  @Override
  public void remark(String text) {
    endLine();
    err.println(text);
  }

  @Override
  public void stop() {
    lines.end();
  }

  /** Ends a line that was written over. */
  void endLine() {
    if (open) {
      err.println();
      open = false;
    }
  }
}
