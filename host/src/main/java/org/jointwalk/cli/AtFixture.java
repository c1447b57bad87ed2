package org.jointwalk.cli;

import java.io.PrintWriter;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Locale;
import org.jointwalk.job.Question.Need;
import org.jointwalk.pass.Operator;

/**
 * Tells on the error stream how far a pass is: on a terminal one line that is written over, with
 * rate and time left; elsewhere one line for each kind of question. Not safe for use by several
 * threads, but for {@link #stop}.
 */
final class AtFixture implements Operator {

  private final PrintWriter err;
  private final boolean terminal;
  private final InstantSource clock;
  private final Lid lid;
  private Instant begun;
  private Need last = Need.SAFETY;
  private boolean open;

  /**
   * @param lid has the parts seated again
   */
  AtFixture(PrintWriter err, boolean terminal, InstantSource clock, Lid lid) {
    this.err = err;
    this.terminal = terminal;
    this.clock = clock;
    this.lid = lid;
    this.begun = clock.instant();
  }

  @Override
  public boolean reseat(List<String> positions) {
    endLine();
    return lid.again(positions);
  }

  @Override
  public void stop() {
    lid.stop();
  }

  static String some(List<String> positions) {
    int shown = 12;
    return positions.size() <= shown
        ? String.join(", ", positions)
        : String.join(", ", positions.subList(0, shown))
            + " and "
            + (positions.size() - shown)
            + " more";
  }

  @Override
  public void progress(Need need, int taken, int of) {
    boolean first = !open || need != last;
    if (first) {
      endLine();
      begun = clock.instant();
      last = need;
      open = true;
    }
    if (terminal) {
      err.print("\r" + words(need) + "  " + taken + " of " + of + rate(taken, of) + "   ");
      err.flush();
    } else if (taken == of) {
      err.println(words(need) + ": " + Sentences.count(of, "reading"));
    }
    if (taken == of) {
      endLine();
    }
  }

  private String rate(int taken, int of) {
    double seconds = Duration.between(begun, clock.instant()).toMillis() / 1e3;
    if (seconds < 0.5) {
      return "";
    }
    double perSecond = taken / seconds;
    return String.format(
        Locale.ROOT, "  %.0f a second, %.0f s left", perSecond, (of - taken) / perSecond);
  }

  @Override
  public void remark(String text) {
    endLine();
    err.println(text);
  }

  private void endLine() {
    if (open && terminal) {
      err.println();
    }
    open = false;
  }

  private static String words(Need need) {
    return switch (need) {
      case SAFETY -> "Looking for voltages before anything is sourced";
      case PATH -> "Walking the pads";
      case PARTNER -> "Asking other pads of the same net";
      case ISOLATION -> "Looking for bridges";
      case LOCALISE -> "Finding where they are joined";
      case RESEAT -> "Seating again";
    };
  }
}
