package org.jointwalk.diagnose;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.job.Logged;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Side;

/**
 * What work does to components. A moment is a number of the job's log. Each question costs one walk
 * over the recorded actions. Immutable.
 */
final class Lives {

  /** What an entry about a replaced part names when another interposer was fitted. */
  static final String INTERPOSER = "interposer";

  /** Later than everything in the log. */
  static final long NOW = Long.MAX_VALUE;

  /** An action with what the interposer was soldered to before it. */
  record Deed(long seq, Action action, Attachment before) {}

  private final List<Deed> deeds = new ArrayList<>();

  Lives(Job job) {
    Attachment attachment = Attachment.BOTH;
    for (Logged logged : job.timeline()) {
      if (logged.event() instanceof Event.Done done) {
        deeds.add(new Deed(logged.seq(), done.action(), attachment));
        attachment = done.action().after(attachment);
      }
    }
  }

  List<Deed> deeds() {
    return List.copyOf(deeds);
  }

  /** What the interposer is soldered to at a moment. */
  Attachment attachment(long at) {
    Attachment attachment = Attachment.BOTH;
    for (Deed deed : deeds) {
      if (deed.seq() < at) {
        attachment = deed.action().after(attachment);
      }
    }
    return attachment;
  }

  /** The part that a component is at a moment; for a joint that is lost, the one that was lost. */
  Part part(Component component, long at) {
    int life = 0;
    for (Deed deed : deeds) {
      if (deed.seq() < at && makesAnew(deed, component)) {
        life++;
      }
    }
    return new Part(component, life);
  }

  /** Whether a part is in the device now. */
  boolean isThere(Part part) {
    if (!part(part.component(), NOW).equals(part)) {
      return false;
    }
    return !(part.component() instanceof Component.Joint joint)
        || attachment(NOW).holds(joint.side());
  }

  /** Whether anything was done between two moments that may have changed a component. */
  boolean touched(Component component, long from, long to) {
    return deeds.stream()
        .filter(deed -> deed.seq() > from && deed.seq() < to)
        .anyMatch(deed -> makesAnew(deed, component) || strains(deed, component));
  }

  private static boolean makesAnew(Deed deed, Component component) {
    Action action = deed.action();
    if (component instanceof Component.Joint joint) {
      return action instanceof Action.Reball reball && melts(deed, reball, joint);
    }
    if (component instanceof Component.Pad pad) {
      return (action instanceof Action.PadRebuilt rebuilt
              && pad.equals(new Component.Pad(rebuilt.side(), rebuilt.position())))
          || (action instanceof Action.Jumper jumper
              && pad.equals(new Component.Pad(jumper.side(), jumper.position())));
    }
    if (component instanceof Component.Bridge bridge) {
      return clears(deed, bridge);
    }
    if (component instanceof Component.Via) {
      return action instanceof Action.PartReplaced replaced
          && replaced.part().equalsIgnoreCase(INTERPOSER);
    }
    return action instanceof Action.PartReplaced replaced
        && !replaced.part().equalsIgnoreCase(INTERPOSER)
        && ((component instanceof Component.NetOf net && net.net().side() == replaced.side())
            || (component instanceof Component.Hidden hidden && hidden.side() == replaced.side()));
  }

  private static boolean melts(Deed deed, Action.Reball reball, Component.Joint joint) {
    // Soldering a lifted interposer on makes the whole row, whichever pads the entry names.
    return reball.side() == joint.side()
        && (covers(reball, joint.position()) || !deed.before().holds(joint.side()));
  }

  private static boolean clears(Deed deed, Component.Bridge bridge) {
    Action action = deed.action();
    if (action instanceof Action.Reball reball) {
      return reball.side() == bridge.side()
          && (covers(reball, bridge.a())
              || covers(reball, bridge.b())
              || !deed.before().holds(bridge.side()));
    }
    return action instanceof Action.Wash
        || (action instanceof Action.Wick wick && wick.side() == bridge.side())
        || letsGo(deed, bridge.side());
  }

  private static boolean strains(Deed deed, Component component) {
    Action action = deed.action();
    if (component instanceof Component.Joint joint) {
      // One row is never melted without heating the other.
      return action instanceof Action.Split
          || action instanceof Action.Lift
          || (action instanceof Action.Reball reball && reball.side() != joint.side());
    }
    if (component instanceof Component.Pad pad) {
      return letsGo(deed, pad.side())
          || (action instanceof Action.Wick wick && wick.side() == pad.side())
          || (action instanceof Action.Reball reball
              && reball.side() == pad.side()
              && covers(reball, pad.position()));
    }
    if (component instanceof Component.Via via) {
      return action instanceof Action.Split
          || action instanceof Action.Lift
          || (action instanceof Action.Reball reball && covers(reball, via.position()));
    }
    return false;
  }

  private static boolean covers(Action.Reball reball, String position) {
    return reball.positions().isEmpty() || reball.positions().contains(position);
  }

  private static boolean letsGo(Deed deed, Side side) {
    return deed.before().holds(side) && !deed.action().after(deed.before()).holds(side);
  }
}
