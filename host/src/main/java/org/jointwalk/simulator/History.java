package org.jointwalk.simulator;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiPredicate;
import org.jointwalk.job.Action;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;

/** What a specimen's faults have become after the actions recorded so far. Stateless. */
final class History {

  /** Residue washes off; metal does not. */
  private static final double RESIDUE_OHMS = 1e4;

  private History() {}

  static Attachment attachment(List<Action> actions) {
    Attachment attachment = Attachment.BOTH;
    for (Action action : actions) {
      attachment = action.after(attachment);
    }
    return attachment;
  }

  static Defects defects(Specimen specimen, List<Action> actions) {
    Defects defects = specimen.defects();
    Attachment attachment = Attachment.BOTH;
    for (int i = 0; i < actions.size(); i++) {
      Action action = actions.get(i);
      defects = after(defects, action, attachment);
      attachment = action.after(attachment);
      for (Specimen.Outcome outcome : specimen.outcomes()) {
        if (outcome.action() == i + 1) {
          Map<Component, Condition> next = new LinkedHashMap<>(defects.conditions());
          next.putAll(outcome.adds().conditions());
          outcome.cures().forEach(next::remove);
          defects = new Defects(next);
        }
      }
    }
    return defects;
  }

  private static Defects after(Defects before, Action action, Attachment attachment) {
    if (action instanceof Action.Split split) {
      return without(before, (c, w) -> isOfRow(c, split.letGo()));
    }
    if (action instanceof Action.Lift) {
      Defects defects = before;
      for (Side side : Side.values()) {
        if (attachment.holds(side)) {
          defects = without(defects, (c, w) -> isOfRow(c, side));
        }
      }
      return defects;
    }
    if (action instanceof Action.Wick wick) {
      return without(before, (c, w) -> c instanceof Component.Bridge b && b.side() == wick.side());
    }
    if (action instanceof Action.Wash) {
      return without(
          before, (c, w) -> w instanceof Condition.Bridged b && b.ohms().value() >= RESIDUE_OHMS);
    }
    if (action instanceof Action.Reball reball) {
      return without(before, (c, w) -> isMadeAgain(c, reball));
    }
    if (action instanceof Action.PadRebuilt rebuilt) {
      return before.without(new Component.Pad(rebuilt.side(), rebuilt.position()));
    }
    if (action instanceof Action.Jumper jumper) {
      return before.without(new Component.Pad(jumper.side(), jumper.position()));
    }
    if (action instanceof Action.ProbesCleaned) {
      return without(
          before, (c, w) -> c instanceof Component.Probe && !(w instanceof Condition.Open));
    }
    return before;
  }

  private static boolean isOfRow(Component component, Side side) {
    return (component instanceof Component.Joint joint && joint.side() == side)
        || (component instanceof Component.Bridge bridge && bridge.side() == side);
  }

  private static boolean isMadeAgain(Component component, Action.Reball reball) {
    if (!isOfRow(component, reball.side())) {
      return false;
    }
    List<String> made = reball.positions();
    if (component instanceof Component.Bridge bridge) {
      return made.isEmpty() || made.contains(bridge.a()) || made.contains(bridge.b());
    }
    return made.isEmpty()
        || (component instanceof Component.Joint joint && made.contains(joint.position()));
  }

  private static Defects without(Defects defects, BiPredicate<Component, Condition> gone) {
    Map<Component, Condition> next = new LinkedHashMap<>(defects.conditions());
    next.entrySet().removeIf(e -> gone.test(e.getKey(), e.getValue()));
    return new Defects(next);
  }
}
