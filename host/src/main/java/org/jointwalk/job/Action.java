package org.jointwalk.job;

import java.util.List;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.Side;

/** Something done to the device or the fixture between passes. */
public sealed interface Action {

  /** What the interposer is soldered to afterwards. */
  default Attachment after(Attachment before) {
    return before;
  }

  /** The stack was split; the joints of one side let go. */
  record Split(Side letGo) implements Action {

    @Override
    public Attachment after(Attachment before) {
      return before.without(letGo);
    }
  }

  /** The interposer was lifted off the board it was still soldered to. */
  record Lift() implements Action {

    @Override
    public Attachment after(Attachment before) {
      return Attachment.NONE;
    }
  }

  /** Old solder was wicked off a side. */
  record Wick(Side side) implements Action {}

  /** The parts were washed and dried. */
  record Wash() implements Action {}

  /**
   * Joints of a side were made again.
   *
   * @param positions which; empty for all
   */
  record Reball(Side side, List<String> positions) implements Action {

    public Reball {
      positions = List.copyOf(positions);
    }

    @Override
    public Attachment after(Attachment before) {
      return before.with(side);
    }
  }

  /** A torn pad was rebuilt. */
  record PadRebuilt(Side side, String position) implements Action {}

  /** A wire was laid from a pad to another point of its net. */
  record Jumper(Side side, String position, String to) implements Action {}

  /** A part of a board was replaced. */
  record PartReplaced(Side side, String part) implements Action {}

  /** The fixture's probes were cleaned. */
  record ProbesCleaned() implements Action {}
}
