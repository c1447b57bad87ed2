package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Ceilings;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Side;

/**
 * Looks for the step whose reading a fault changes most. Looks near the fault only: by the theory
 * of rank-one changes nothing far away changes more. The search ends where no doubt is left. Not
 * thread-safe.
 */
final class Showing {

  /** Contacts of the highest and of the lowest share that are looked at. */
  private static final int EXTREMES = 4;

  /** Contacts looked at on each net concerned. */
  private static final int PER_NET = 3;

  /** Pairs looked at with steps that are slow to compute. */
  private static final int SLOW_PAIRS = 8;

  /** Nobody asks how much more than this it is, in standard deviations. */
  private static final double CERTAIN = 100;

  /** A pair whose current passes a conductor with less than this share does not notice it. */
  private static final double NO_SHARE = 1e-9;

  private final Assembly assembly;
  private final Capabilities capabilities;
  private final Ceilings ceilings;
  private final List<Contact> contacts;
  private final Meter with;
  private final Meter without;
  private final boolean partsKnown;
  private final Deviation deviation;

  /** Two contacts and how much the conductance between them changes, in siemens. */
  private record Pair(Contact a, Contact b, double change) {}

  /**
   * @param partsKnown whether the value of every good part of this very stack is known, as it never
   *     is at a bench
   */
  Showing(
      Assembly assembly,
      Capabilities capabilities,
      List<Contact> contacts,
      Meter with,
      Meter without,
      boolean partsKnown) {
    this.assembly = assembly;
    this.capabilities = capabilities;
    this.contacts = contacts.stream().filter(assembly.contacts()::contains).toList();
    ceilings = new Ceilings(assembly);
    this.with = with;
    this.without = without;
    this.partsKnown = partsKnown;
    deviation = new Deviation(capabilities);
  }

  /**
   * @param shares what share of a current that enters at a contact and leaves at another passes the
   *     conductor that the fault changes: the difference of the two figures; empty where the fault
   *     changes more than one
   */
  Visibility of(Component fault, Map<Contact, Double> shares) {
    Set<Contact> near = near(fault);
    near.addAll(extremes(shares));
    Set<Contact> others = new LinkedHashSet<>(near);
    for (Contact contact : near) {
      Node home = assembly.home(contact);
      contacts.stream()
          .filter(c -> assembly.home(c).equals(home))
          .limit(PER_NET)
          .forEach(others::add);
    }
    contacts.stream()
        .filter(assembly::isGround)
        .filter(c -> !near.contains(c))
        .limit(PER_NET)
        .forEach(others::add);
    return over(pairs(near, others, shares));
  }

  /**
   * The contacts with the highest and the lowest figure. What a pair's resistance changes by grows
   * with the square of the share, so no pair changes more than the first with the last.
   */
  private static List<Contact> extremes(Map<Contact, Double> shares) {
    List<Contact> sorted =
        shares.entrySet().stream()
            .sorted(Map.Entry.comparingByValue())
            .map(Map.Entry::getKey)
            .toList();
    int n = sorted.size();
    if (n <= 2 * EXTREMES) {
      return sorted;
    }
    List<Contact> outermost = new ArrayList<>(sorted.subList(0, EXTREMES));
    outermost.addAll(sorted.subList(n - EXTREMES, n));
    return outermost;
  }

  /** The pairs between a contact of one set and one of the other that may notice the fault. */
  private List<Pair> pairs(Set<Contact> near, Set<Contact> others, Map<Contact, Double> shares) {
    List<Pair> pairs = new ArrayList<>();
    Set<Contact> done = new LinkedHashSet<>();
    for (Contact a : near) {
      done.add(a);
      for (Contact b : others) {
        double share = shares.getOrDefault(a, 1.0) - shares.getOrDefault(b, 0.0);
        if (!done.contains(b) && Math.abs(share) > NO_SHARE) {
          pairs.add(new Pair(a, b, Math.abs(1 / with.ohms(a, b) - 1 / without.ohms(a, b))));
        }
      }
    }
    return pairs;
  }

  private Visibility over(List<Pair> pairs) {
    Visibility best = Visibility.NONE;
    for (Pair pair : pairs) {
      best = best.orBetter(quick(pair.a(), pair.b()));
      if (best.deviations() > CERTAIN) {
        return best;
      }
    }
    List<Pair> slow =
        pairs.stream()
            .sorted(Comparator.comparingDouble(Pair::change).reversed())
            .limit(SLOW_PAIRS)
            .toList();
    for (Pair pair : slow) {
      best = best.orBetter(seen(step(Kind.ISOLATION, pair.a(), pair.b())));
    }
    List<Pair> toGround =
        pairs.stream()
            .filter(p -> assembly.isGround(p.a()) != assembly.isGround(p.b()))
            .limit(SLOW_PAIRS)
            .toList();
    for (Pair pair : toGround) {
      if (best.deviations() < CERTAIN) {
        best = best.orBetter(junctions(pair.a(), pair.b()));
      }
    }
    return best;
  }

  /** Every kind of step between two contacts. */
  Visibility pair(Contact a, Contact b) {
    Visibility best = quick(a, b).orBetter(seen(step(Kind.ISOLATION, a, b)));
    return assembly.isGround(a) != assembly.isGround(b) ? best.orBetter(junctions(a, b)) : best;
  }

  private Visibility quick(Contact a, Contact b) {
    return seen(step(Kind.LOW_LEVEL, a, b))
        .orBetter(seen(step(Kind.NORMAL_LEVEL, a, b)))
        .orBetter(with.isLive() ? seen(step(Kind.RESIDUAL, a, b)) : Visibility.NONE);
  }

  private Visibility junctions(Contact a, Contact b) {
    return seen(step(Kind.JUNCTION, a, b)).orBetter(seen(step(Kind.JUNCTION, b, a)));
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
    Reading before = without.read(0, step.get());
    Reading after = with.read(0, step.get());
    double deviations = deviation.between(step.get(), before, after, 0);
    if (deviations > 0 && !partsKnown) {
      deviations = deviation.between(step.get(), before, after, partsOhms(step.get()));
    }
    return deviations > 0 ? new Visibility(deviations, step) : Visibility.NONE;
  }

  private double partsOhms(Step step) {
    return Math.max(without.spreadOhms(step.a(), step.b()), with.spreadOhms(step.a(), step.b()));
  }

  /** Contacts at the positions and nets that a fault names. */
  private Set<Contact> near(Component fault) {
    Set<Contact> near = new LinkedHashSet<>();
    for (String position : positions(fault)) {
      contacts.stream()
          .filter(c -> c instanceof Contact.Pad pad && pad.position().equals(position))
          .forEach(near::add);
      for (Side side : assembly.setUp().boards()) {
        onNet(assembly.map().position(position).net(side), PER_NET).forEach(near::add);
      }
    }
    if (fault instanceof Component.NetOf netOf) {
      onNet(netOf.net(), PER_NET).forEach(near::add);
      for (Load load : assembly.loads()) {
        NetId from = new NetId(load.side(), load.from());
        NetId to = new NetId(load.side(), load.to());
        if (from.equals(netOf.net()) || to.equals(netOf.net())) {
          onNet(from, 1).forEach(near::add);
          onNet(to, 1).forEach(near::add);
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

  private List<Contact> onNet(NetId net, int most) {
    Node hub = Node.OnBoard.of(net);
    return contacts.stream().filter(c -> assembly.home(c).equals(hub)).limit(most).toList();
  }
}
