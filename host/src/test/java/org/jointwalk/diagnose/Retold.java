package org.jointwalk.diagnose;

import java.util.List;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import org.jointwalk.job.Action;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Event;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Seen;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Side;

/**
 * The same job told with other ids or upside down.
 *
 * @param id new name of a position
 * @param side new name of a side
 */
record Retold(UnaryOperator<String> id, UnaryOperator<Side> side) {

  static Retold upsideDown() {
    return new Retold(UnaryOperator.identity(), Side::other);
  }

  static Retold renamed(UnaryOperator<String> id) {
    return new Retold(id, UnaryOperator.identity());
  }

  private boolean turns() {
    return side.apply(Side.UPPER) != Side.UPPER;
  }

  /** Swaps the words for the sides when the stack is turned. */
  String words(String text) {
    if (!turns()) {
      return text;
    }
    return text.replace("upper", "#")
        .replace("lower", "upper")
        .replace("#", "lower")
        .replace("UPPER", "#")
        .replace("LOWER", "UPPER")
        .replace("#", "LOWER");
  }

  List<Event> events(List<Event> events) {
    return events.stream().map(this::event).toList();
  }

  private Event event(Event event) {
    if (event instanceof Event.Done done) {
      return new Event.Done(action(done.action()), done.by());
    }
    if (event instanceof Event.Looked looked) {
      Seen seen = looked.seen();
      return new Event.Looked(
          new Seen(side.apply(seen.side()), id.apply(seen.position()), seen.look()), looked.by());
    }
    if (event instanceof Event.PassBegun begun) {
      return new Event.PassBegun(
          begun.pass(),
          words(begun.setUp()),
          begun.purpose(),
          begun.variant(),
          begun.padMap(),
          begun.fixtureMap(),
          begun.capabilities(),
          begun.by());
    }
    if (event instanceof Event.PassGraded graded) {
      return new Event.PassGraded(graded.pass(), findings(graded.findings()), graded.program());
    }
    return event;
  }

  private Findings findings(Findings findings) {
    return new Findings(
        findings.positions().stream().map(this::finding).toList(),
        findings.bridges().stream().map(this::bridge).toList(),
        findings.boards().stream()
            .map(b -> new BoardFinding(net(b.net()), b.fault(), b.reason()))
            .toList(),
        findings.rule());
  }

  private BridgeFinding bridge(BridgeFinding bridge) {
    String a = id.apply(bridge.a());
    String b = id.apply(bridge.b());
    return a.compareTo(b) < 0
        ? new BridgeFinding(a, b, bridge.ohms())
        : new BridgeFinding(b, a, bridge.ohms());
  }

  private Finding finding(Finding f) {
    return new Finding(
        id.apply(f.position()),
        f.grade(),
        f.ohms(),
        f.limit(),
        f.seatings(),
        f.confirmed(),
        f.detectable(),
        f.among().stream().map(this::component).toList(),
        f.reason());
  }

  private Action action(Action action) {
    if (action instanceof Action.Split split) {
      return new Action.Split(side.apply(split.letGo()));
    }
    if (action instanceof Action.Wick wick) {
      return new Action.Wick(side.apply(wick.side()));
    }
    if (action instanceof Action.Reball reball) {
      return new Action.Reball(
          side.apply(reball.side()), reball.positions().stream().map(id).toList());
    }
    if (action instanceof Action.PadRebuilt rebuilt) {
      return new Action.PadRebuilt(side.apply(rebuilt.side()), id.apply(rebuilt.position()));
    }
    if (action instanceof Action.PartReplaced replaced) {
      return new Action.PartReplaced(side.apply(replaced.side()), replaced.part());
    }
    return action;
  }

  Component component(Component component) {
    return List.<Function<Component, Component>>of(this::ofPosition, this::ofBoard).stream()
        .map(f -> f.apply(component))
        .filter(c -> !c.equals(component))
        .findFirst()
        .orElse(component);
  }

  private Component ofPosition(Component c) {
    if (c instanceof Component.Pad pad) {
      return new Component.Pad(side.apply(pad.side()), id.apply(pad.position()));
    }
    if (c instanceof Component.Joint joint) {
      return new Component.Joint(side.apply(joint.side()), id.apply(joint.position()));
    }
    return c instanceof Component.Via via ? new Component.Via(id.apply(via.position())) : c;
  }

  private Component ofBoard(Component c) {
    if (c instanceof Component.NetOf net) {
      return new Component.NetOf(net(net.net()));
    }
    if (c instanceof Component.Hidden hidden) {
      return new Component.Hidden(side.apply(hidden.side()), hidden.function());
    }
    if (c instanceof Component.Bridge bridge) {
      return Component.Bridge.between(
          side.apply(bridge.side()), id.apply(bridge.a()), id.apply(bridge.b()));
    }
    if (c instanceof Component.Probe probe && probe.contact() instanceof Contact.Pad pad) {
      Plate plate = turns() ? (pad.plate() == Plate.OVER ? Plate.UNDER : Plate.OVER) : pad.plate();
      return new Component.Probe(new Contact.Pad(plate, id.apply(pad.position())));
    }
    return c;
  }

  private NetId net(NetId net) {
    return new NetId(side.apply(net.side()), net.name());
  }
}
