package org.jointwalk.files;

import java.util.Collection;
import java.util.List;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;

/**
 * Checks what a simulated stack says is defective against the pad map. For one stack and one
 * thread.
 */
final class Defective {

  private final PadMap map;
  private final Read<SpecimenFile.Stack> stack;
  private final Faults faults;

  Defective(PadMap map, Read<SpecimenFile.Stack> stack, Faults faults) {
    this.map = map;
    this.stack = stack;
    this.faults = faults;
  }

  void check(Specimen specimen) {
    check(specimen.defects());
    for (Specimen.Outcome outcome : specimen.outcomes()) {
      check(outcome.adds());
      outcome.cures().forEach(this::check);
    }
    for (Specimen.Trouble trouble : specimen.troubles()) {
      if (trouble instanceof Specimen.Trouble.StuckOpen stuck) {
        check(stuck.contact());
      } else if (trouble instanceof Specimen.Trouble.StuckClosed stuck) {
        check(stuck.contact());
      } else if (trouble instanceof Specimen.Trouble.Missed missed) {
        check(missed.contact());
      }
    }
  }

  private void check(Defects defects) {
    defects
        .conditions()
        .forEach(
            (component, condition) -> {
              check(component);
              if (component instanceof Component.NetOf net
                  && condition instanceof Condition.Shorted shorted) {
                shorted(net.net(), shorted.to(), place(component));
              }
            });
  }

  private void shorted(NetId net, String to, Place place) {
    net(new NetId(net.side(), to), place);
    if (net.name().equals(to)) {
      faults.error(
          new Fault(
              place,
              "a net cannot be shorted to itself",
              JsonOut.quoted(to),
              "another net of the same board",
              "Name another net under \"to\""));
    }
  }

  private void check(Component component) {
    Place place = place(component);
    if (component instanceof Component.Pad pad) {
      position(pad.position(), place);
    } else if (component instanceof Component.Joint joint) {
      position(joint.position(), place);
    } else if (component instanceof Component.Via via) {
      position(via.position(), place);
    } else if (component instanceof Component.Bridge bridge) {
      position(bridge.a(), place);
      position(bridge.b(), place);
    } else if (component instanceof Component.NetOf net) {
      net(net.net(), place);
    } else if (component instanceof Component.Hidden hidden) {
      known(hidden.function(), map.functions(), "function", place);
    } else if (component instanceof Component.Probe probe) {
      check(probe.contact(), place);
    }
  }

  private void check(Contact contact) {
    check(contact, stack.place("contact " + Names.of(contact)));
  }

  private void check(Contact contact, Place place) {
    MapCheck.contact(map, contact, place, Names.of(contact), faults);
  }

  private void position(String id, Place place) {
    known(id, map.positions().keySet(), "position", place);
  }

  private void net(NetId net, Place place) {
    List<String> names =
        map.nets().keySet().stream()
            .filter(other -> other.side() == net.side())
            .map(NetId::name)
            .toList();
    String board = net.side() == Side.UPPER ? "net on the upper board" : "net on the lower board";
    known(net.name(), names, board, place);
  }

  private void known(String word, Collection<String> all, String what, Place place) {
    if (!all.contains(word)) {
      faults.unknown(place, "the pad map has no such " + what, word, all);
    }
  }

  private Place place(Component component) {
    return stack.place(ConditionText.thing(component));
  }
}
