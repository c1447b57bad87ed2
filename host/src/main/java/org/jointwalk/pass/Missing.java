package org.jointwalk.pass;

import org.jointwalk.job.Job;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;

/** Says which action a set-up still needs. Stateless. */
final class Missing {

  private Missing() {}

  static String words(Assembly assembly, Job job) {
    SetUp setUp = assembly.setUp();
    Attachment now = job.attachment();
    String action = action(setUp, now);
    return setUp.title()
        + " cannot be in the fixture yet: in job "
        + job.id()
        + " the interposer is "
        + describe(now)
        + ". "
        + action;
  }

  private static String describe(Attachment now) {
    return switch (now) {
      case BOTH -> "still soldered to both boards";
      case UPPER -> "soldered to the upper board";
      case LOWER -> "soldered to the lower board";
      case NONE -> "off both boards";
    };
  }

  private static String action(SetUp setUp, Attachment now) {
    if (setUp.possible().contains(Attachment.BOTH)) {
      return "Record the re-ball that joined the stack again: job action reball --side SIDE.";
    }
    if (now == Attachment.BOTH) {
      Side letGo = setUp.possible().contains(Attachment.UPPER) ? Side.LOWER : Side.UPPER;
      return "Split the stack and record which side let go: job action split --let-go "
          + (letGo == Side.UPPER ? "upper" : "lower")
          + ".";
    }
    if (setUp.possible().contains(Attachment.NONE)) {
      return "Lift the interposer and record it: job action lift.";
    }
    Side needed = setUp.possible().contains(Attachment.UPPER) ? Side.UPPER : Side.LOWER;
    return "Solder it to that board and record it: job action reball --side "
        + (needed == Side.UPPER ? "upper" : "lower")
        + ".";
  }
}
