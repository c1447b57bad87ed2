package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Ceilings;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;

/**
 * Looks for the step whose reading a fault changes most. Looks near the fault only: by the theory
 * of rank-one changes nothing far away changes more. Not thread-safe.
 */
final class Showing {

  private static final int PER_NET = 4;
  private static final int GROUNDS = 3;

  private final Assembly assembly;
  private final Capabilities capabilities;
  private final Ceilings ceilings;
  private final List<Contact> contacts;
  private final Meter with;
  private final Meter without;
  private final Deviation deviation;

  Showing(
      Assembly assembly,
      Capabilities capabilities,
      List<Contact> contacts,
      Meter with,
      Meter without) {
    this.assembly = assembly;
    this.capabilities = capabilities;
    this.contacts = contacts.stream().filter(assembly.contacts()::contains).toList();
    ceilings = new Ceilings(assembly);
    this.with = with;
    this.without = without;
    deviation = new Deviation(capabilities);
  }

  /**
   * @param extremes contacts that the fault parts most
   */
  Visibility of(Component fault, Collection<Contact> extremes) {
    Set<Contact> near = near(fault);
    near.addAll(extremes);
    Set<Contact> others = new LinkedHashSet<>(near);
    for (Contact contact : near) {
      contacts.stream()
          .filter(c -> home(c).equals(home(contact)))
          .limit(PER_NET)
          .forEach(others::add);
    }
    contacts.stream()
        .filter(this::isGround)
        .filter(c -> !near.contains(c))
        .limit(GROUNDS)
        .forEach(others::add);
    return over(List.copyOf(near), List.copyOf(others));
  }

  /** The largest change over all steps between a contact of one list and one of the other. */
  Visibility over(List<Contact> near, List<Contact> others) {
    Visibility best = Visibility.NONE;
    for (Contact a : near) {
      for (Contact b : others) {
        if (!a.equals(b)) {
          best = best.orBetter(pair(a, b));
        }
      }
    }
    return best;
  }

  private Visibility pair(Contact a, Contact b) {
    Visibility best = Visibility.NONE;
    for (Kind kind : List.of(Kind.LOW_LEVEL, Kind.NORMAL_LEVEL, Kind.ISOLATION, Kind.RESIDUAL)) {
      best = best.orBetter(seen(step(kind, a, b)));
    }
    if (isGround(a) || isGround(b)) {
      best = best.orBetter(seen(step(Kind.JUNCTION, a, b)));
      best = best.orBetter(seen(step(Kind.JUNCTION, b, a)));
    }
    return best;
  }

  private Optional<Step> step(Kind kind, Contact a, Contact b) {
    Optional<Range> range = capabilities.range(kind);
    if (range.isEmpty()) {
      return Optional.empty();
    }
    List<Contact> both = List.of(a, b);
    List<Amps> currents =
        switch (kind) {
          case LOW_LEVEL, NORMAL_LEVEL ->
              List.of(Amps.min(range.get().current(), ceilings.current(kind, both)));
          case JUNCTION -> ceilings.junctionCurrents(both);
          default -> List.of();
        };
    Volts compliance = Volts.min(range.get().compliance(), ceilings.volts(kind, both));
    return Optional.of(new Step(kind, List.of(a), List.of(b), currents, compliance, 1));
  }

  private Visibility seen(Optional<Step> step) {
    if (step.isEmpty()) {
      return Visibility.NONE;
    }
    double deviations =
        deviation.between(step.get(), without.read(0, step.get()), with.read(0, step.get()));
    return deviations > 0 ? new Visibility(deviations, step) : Visibility.NONE;
  }

  /** Contacts at the positions and nets that a fault names. */
  private Set<Contact> near(Component fault) {
    Set<Contact> near = new LinkedHashSet<>();
    for (String position : positions(fault)) {
      contacts.stream()
          .filter(c -> c instanceof Contact.Pad pad && pad.position().equals(position))
          .forEach(near::add);
      for (Side side : assembly.setUp().boards()) {
        onNet(assembly.map().position(position).net(side)).forEach(near::add);
      }
    }
    if (fault instanceof Component.NetOf netOf) {
      onNet(netOf.net()).forEach(near::add);
      for (Load load : assembly.loads()) {
        NetId from = new NetId(load.side(), load.from());
        NetId to = new NetId(load.side(), load.to());
        if (from.equals(netOf.net()) || to.equals(netOf.net())) {
          onNet(from).stream().limit(1).forEach(near::add);
          onNet(to).stream().limit(1).forEach(near::add);
        }
      }
    }
    return near;
  }

  private static List<String> positions(Component fault) {
    if (fault instanceof Component.Pad pad) {
      return List.of(pad.position());
    }
    if (fault instanceof Component.Joint joint) {
      return List.of(joint.position());
    }
    if (fault instanceof Component.Via via) {
      return List.of(via.position());
    }
    if (fault instanceof Component.Bridge bridge) {
      return List.of(bridge.a(), bridge.b());
    }
    return List.of();
  }

  private List<Contact> onNet(NetId net) {
    Node hub = Node.OnBoard.of(net);
    List<Contact> found = new ArrayList<>();
    for (Contact contact : contacts) {
      if (home(contact).equals(hub)) {
        found.add(contact);
        if (found.size() == PER_NET) {
          break;
        }
      }
    }
    return found;
  }

  private Node home(Contact contact) {
    Node hub = assembly.branch(contact).hub();
    return hub instanceof Node.TieMetal metal
        ? assembly.beyond(metal).map(Node.class::cast).orElse(hub)
        : hub;
  }

  private boolean isGround(Contact contact) {
    return home(contact) instanceof Node.OnBoard board
        && assembly.map().nets().containsKey(new NetId(board.side(), board.name()))
        && assembly.map().net(new NetId(board.side(), board.name())).role() == Role.GROUND;
  }
}
