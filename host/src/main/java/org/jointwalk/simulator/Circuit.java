package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Face;
import org.jointwalk.stack.Link;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;

/**
 * The electrical network of what is in the fixture, with its faults, as far as the probe tips. Not
 * thread-safe.
 */
final class Circuit {

  private final Assembly assembly;
  private final Sound sound;
  private final Defects defects;
  private final Network network = new Network();
  private final Map<Node, Integer> nodes = new HashMap<>();
  private final Map<Contact, Integer> touched = new LinkedHashMap<>();
  private final Map<Contact, Integer> toHigh = new HashMap<>();
  private final Map<Contact, Integer> toLow = new HashMap<>();
  private final Optional<Strays> strays;
  private final Map<Component, Ends> changes = new LinkedHashMap<>();
  private final Map<Set<Node>, Double> farads = new HashMap<>();
  private final Pattern pattern;
  private final Solver solver;

  /**
   * The conductor that a fault changes.
   *
   * @param a node at one end
   * @param b node at the other
   * @param edge number of the conductor
   * @param soundSiemens its conductance without the fault
   * @param spread standard deviation of sound ones, as a fraction
   */
  record Ends(int a, int b, int edge, double soundSiemens, double spread) {}

  /**
   * @param assembly what is clamped
   * @param sound what its sound parts measure
   * @param defects what is wrong with it; what comes and goes conducts
   * @param contacts the probes that there are
   * @param buses whether two buses are laid that any of the probes can be switched to
   * @param strays relays that conduct although they are open; with any there are buses too
   * @param known pattern of an earlier circuit that may be of the same topology
   */
  Circuit(
      Assembly assembly,
      Sound sound,
      Defects defects,
      Iterable<Contact> contacts,
      boolean buses,
      Optional<Strays> strays,
      Optional<Pattern> known) {
    this.assembly = assembly;
    this.sound = sound;
    this.defects = defects;
    this.strays = strays;
    assembly.links().forEach(this::lay);
    assembly.loads().forEach(this::lay);
    defects.conditions().forEach(this::lay);
    touch(contacts);
    if (strays.isPresent()) {
      strays.get().lay(network, contacts, contact -> touched.getOrDefault(contact, -1));
    } else if (buses) {
      int high = network.node();
      int low = network.node();
      touched.forEach(
          (contact, node) -> {
            toHigh.put(contact, network.resistor(high, node, Double.POSITIVE_INFINITY));
            toLow.put(contact, network.resistor(low, node, Double.POSITIVE_INFINITY));
          });
    }
    pattern = network.pattern(buses || strays.isPresent() ? 2 : 0, known);
    solver = new Solver(network, pattern);
  }

  private void touch(Iterable<Contact> contacts) {
    boolean shorted = assembly.setUp().shorted();
    int plate = shorted ? network.node() : -1;
    for (Contact contact : contacts) {
      if (shorted) {
        touched.put(contact, plate);
      } else if (assembly.contacts().contains(contact)) {
        touched.put(contact, node(assembly.branch(contact).touched()));
      }
    }
  }

  private int node(Node node) {
    return nodes.computeIfAbsent(node, n -> network.node());
  }

  private int node(Side side, String name) {
    return node(new Node.OnBoard(side, name));
  }

  private void lay(Link link) {
    double ohms = sound.ohms(link);
    Optional<Condition> wrong = link.component().flatMap(defects::of);
    if (wrong.isPresent()) {
      Component component = link.component().orElseThrow();
      int edge =
          network.resistor(node(link.a()), node(link.b()), path(component, wrong.get(), ohms));
      changes.put(
          component,
          new Ends(
              node(link.a()), node(link.b()), edge, Network.conductance(ohms), Sound.spread(link)));
    } else {
      network.resistor(node(link.a()), node(link.b()), ohms, Sound.spread(link));
    }
  }

  private static double path(Component component, Condition condition, double ohms) {
    if (condition instanceof Condition.Open) {
      return Double.POSITIVE_INFINITY;
    }
    if (condition instanceof Condition.High high) {
      return ohms + high.ohms().value();
    }
    if (condition instanceof Condition.TwoState twoState) {
      return ohms + twoState.ohms().value();
    }
    if (condition instanceof Condition.Intermittent flicker) {
      return ohms + flicker.ohms().value();
    }
    throw misfit(component, condition);
  }

  private static IllegalArgumentException misfit(Component component, Condition condition) {
    return new IllegalArgumentException(component + " cannot be " + condition);
  }

  /** Lays metal that a sound stack has not. */
  private void join(Component component, int a, int b, double ohms) {
    changes.put(component, new Ends(a, b, network.resistor(a, b, ohms), 0, 0));
  }

  private void lay(Load load) {
    if (load instanceof Load.Resistor resistor) {
      layResistance(load, resistor.ohms().value());
    } else if (load instanceof Load.Inductor inductor) {
      layResistance(load, inductor.ohms().value());
    } else if (load instanceof Load.Capacitor capacitor) {
      lay(capacitor);
    } else if (load instanceof Load.Junction junction && !isCutOff(load)) {
      network.junction(
          node(load.side(), load.from()),
          node(load.side(), load.to()),
          sound.diode(junction, factor(load)));
    }
  }

  /** Capacitors do not conduct; they make readings settle. */
  private void lay(Load.Capacitor capacitor) {
    farads.merge(
        Set.of(
            new Node.OnBoard(capacitor.side(), capacitor.from()),
            new Node.OnBoard(capacitor.side(), capacitor.to())),
        capacitor.farads(),
        Double::sum);
  }

  private void layResistance(Load load, double typical) {
    double ohms = sound.ohms(load, typical);
    network.resistor(
        node(load.side(), load.from()),
        node(load.side(), load.to()),
        isCutOff(load) ? Double.POSITIVE_INFINITY : ohms * factor(load),
        Sound.partSpread());
  }

  private List<Condition> conditions(Load load) {
    List<Condition> found = new ArrayList<>();
    for (String name : List.of(load.from(), load.to())) {
      defects.of(new Component.NetOf(new NetId(load.side(), name))).ifPresent(found::add);
    }
    return found;
  }

  private boolean isCutOff(Load load) {
    return conditions(load).stream().anyMatch(c -> c instanceof Condition.Open);
  }

  private double factor(Load load) {
    double factor = 1;
    for (Condition condition : conditions(load)) {
      if (condition instanceof Condition.Abnormal abnormal) {
        factor *= abnormal.factor();
      }
    }
    return factor;
  }

  private void lay(Component component, Condition condition) {
    if (component instanceof Component.Bridge bridge) {
      if (!(condition instanceof Condition.Bridged bridged)) {
        throw misfit(component, condition);
      }
      layBridge(bridge, bridged.ohms().value());
    } else if (component instanceof Component.NetOf netOf) {
      if (assembly.setUp().boards().contains(netOf.net().side())) {
        layNet(netOf, condition);
      }
    }
  }

  private void layBridge(Component.Bridge bridge, double ohms) {
    Face face = Face.padOf(bridge.side());
    if (assembly.setUp().interposer()) {
      face = Face.landOf(bridge.side());
    } else if (!assembly.setUp().boards().contains(bridge.side())) {
      return;
    }
    join(
        bridge, node(new Node.Land(bridge.a(), face)), node(new Node.Land(bridge.b(), face)), ohms);
  }

  private void layNet(Component.NetOf netOf, Condition condition) {
    NetId net = netOf.net();
    int hub = node(Node.OnBoard.of(net));
    if (condition instanceof Condition.Shorted shorted) {
      join(netOf, hub, node(net.side(), shorted.to()), shorted.ohms().value());
    } else if (condition instanceof Condition.Charged charged) {
      network.source(ground(net.side()), hub, charged.volts(), charged.ohms().value());
    } else if (!(condition instanceof Condition.Abnormal || condition instanceof Condition.Open)) {
      throw misfit(netOf, condition);
    }
  }

  private int ground(Side side) {
    return assembly.map().nets().values().stream()
        .filter(n -> n.role() == Role.GROUND && n.id().side() == side)
        .map(Net::id)
        .findFirst()
        .map(id -> node(Node.OnBoard.of(id)))
        .orElseThrow(() -> new IllegalArgumentException("the " + side + " board has no ground"));
  }

  /** The node under a probe tip, empty when there is nothing. */
  Optional<Integer> node(Contact contact) {
    return Optional.ofNullable(touched.get(contact));
  }

  /** Capacitance that lies directly between the nets behind two contacts, in farad. */
  double farads(Contact a, Contact b) {
    if (farads.isEmpty()
        || !assembly.contacts().contains(a)
        || !assembly.contacts().contains(b)
        || assembly.home(a).equals(assembly.home(b))) {
      return 0;
    }
    return farads.getOrDefault(Set.of(assembly.home(a), assembly.home(b)), 0.0);
  }

  /** The node of a bus of a circuit that has buses. */
  int bus(boolean high) {
    return network.size() - (high ? 2 : 1);
  }

  /** Switches a probe to a bus over so many ohms, infinite to open, in one state of the circuit. */
  void switchTo(Solver state, Contact contact, boolean high, double ohms) {
    if (strays.isPresent()) {
      strays.get().switchTo(state, contact, high ? Specimen.Pole.HIGH : Specimen.Pole.LOW, ohms);
      return;
    }
    Integer edge = (high ? toHigh : toLow).get(contact);
    if (edge != null) {
      state.set(edge, Network.conductance(ohms));
    }
  }

  /** The relays that conduct although they are open, empty when all are sound. */
  Optional<Strays> strays() {
    return strays;
  }

  /** The conductor that a fault changes, empty when it changes none or more than one. */
  Optional<Ends> ends(Component fault) {
    return Optional.ofNullable(changes.get(fault));
  }

  /** The conductors that drop out by themselves, with the condition of each. */
  Map<Ends, Condition.Intermittent> flickering() {
    Map<Ends, Condition.Intermittent> found = new LinkedHashMap<>();
    changes.forEach(
        (component, ends) -> {
          if (defects.of(component).orElseThrow() instanceof Condition.Intermittent flicker) {
            found.put(ends, flicker);
          }
        });
    return found;
  }

  /** The state without one fault that changes one conductor. */
  Solver repaired(Ends fault) {
    Solver state = solver.copy();
    state.set(fault.edge(), fault.soundSiemens());
    return state;
  }

  /**
   * How far the resistance between two probe tips may lie from that of another stack with the same
   * faults, since good parts differ: one standard deviation in ohm, to first order. By Cohn's
   * theorem each conductor counts with the square of its share of the current. A fault's own value
   * counts as known.
   *
   * @param state of this circuit's topology
   */
  double spreadOhms(Solver state, Contact a, Contact b) {
    Optional<Integer> from = node(a);
    Optional<Integer> to = node(b);
    if (from.isEmpty() || to.isEmpty()) {
      return 0;
    }
    double[] volts = state.potentials(from.get(), to.get());
    double variance = 0;
    List<Network.Resistor> resistors = network.resistors();
    for (int edge = 0; edge < resistors.size(); edge++) {
      Network.Resistor resistor = resistors.get(edge);
      if (resistor.spread() > 0) {
        double across = volts[resistor.a()] - volts[resistor.b()];
        double part = resistor.spread() * state.siemens(edge) * across * across;
        variance += part * part;
      }
    }
    for (Ends ends : changes.values()) {
      if (state.siemens(ends.edge()) == ends.soundSiemens()) {
        double across = volts[ends.a()] - volts[ends.b()];
        double part = ends.spread() * ends.soundSiemens() * across * across;
        variance += part * part;
      }
    }
    return Math.sqrt(variance);
  }

  Solver solver() {
    return solver;
  }

  /** The same in the words of SPICE. */
  Deck deck() {
    return Deck.of(network, touched);
  }

  Pattern pattern() {
    return pattern;
  }
}
