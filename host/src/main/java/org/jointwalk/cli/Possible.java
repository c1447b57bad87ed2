package org.jointwalk.cli;

import java.util.Optional;
import org.jointwalk.job.Action;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.Side;

/** Which actions can have been done, given what the interposer is soldered to. Stateless. */
final class Possible {

  private Possible() {}

  /** What has to be done and kept first, in a sentence; empty when the action is possible. */
  static Optional<String> missing(Action action, Attachment now) {
    if (action instanceof Action.Split) {
      return now == Attachment.BOTH
          ? Optional.empty()
          : Optional.of("the stack is split already: " + Sentences.of(now) + ".");
    }
    if (action instanceof Action.Lift) {
      return switch (now) {
        case BOTH ->
            Optional.of("the interposer cannot be lifted before the stack is split. " + split());
        case NONE -> Optional.of("the interposer is lifted already.");
        case UPPER, LOWER -> Optional.empty();
      };
    }
    if (action instanceof Action.Reball reball) {
      // Single joints may be touched up where the interposer sits; a whole row needs bare pads.
      return now != Attachment.BOTH && !reball.positions().isEmpty()
          ? Optional.empty()
          : bare(reball.side(), now, "the joints of the " + word(reball.side()) + " side");
    }
    if (action instanceof Action.Wick wick) {
      return bare(wick.side(), now, "the solder of the " + word(wick.side()) + " side");
    }
    if (action instanceof Action.PadRebuilt rebuilt) {
      return bare(rebuilt.side(), now, pad(rebuilt.side(), rebuilt.position()));
    }
    if (action instanceof Action.Jumper jumper) {
      return bare(jumper.side(), now, pad(jumper.side(), jumper.position()));
    }
    return Optional.empty();
  }

  /** What is missing before the pads of a board lie bare. */
  private static Optional<String> bare(Side side, Attachment now, String what) {
    if (!now.holds(side)) {
      return Optional.empty();
    }
    return Optional.of(
        what
            + " cannot be reached while the interposer is soldered to the "
            + word(side)
            + " board. "
            + (now == Attachment.BOTH ? split() : lift()));
  }

  private static String split() {
    return "Keep the split first: job action split --let-go upper|lower.";
  }

  private static String lift() {
    return "Keep the lifting first: job action lift.";
  }

  private static String pad(Side side, String position) {
    return word(side) + " pad " + position;
  }

  private static String word(Side side) {
    return Choice.word(side);
  }
}
