package org.jointwalk.simulator;

import java.util.HashMap;
import java.util.Map;
import java.util.OptionalInt;
import java.util.function.ToIntFunction;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Specimen;

/**
 * The wires of a fixture in which some relay conducts although it is open. Then the way from a bus
 * to a probe is part of the circuit, because current may take another way than the one that was
 * switched: each contact has a node behind its probe, and a relay from there to each bus. For one
 * circuit; not thread-safe.
 */
final class Strays {

  private final Hardware hardware;
  private final Seat seat;
  private final Map<Contact, Integer> behind = new HashMap<>();
  private final Map<Contact, Integer> tips = new HashMap<>();
  private final Map<Specimen.Pole, Map<Contact, Integer>> relays = new HashMap<>();
  private final Map<Specimen.Pole, Integer> buses = new HashMap<>();

  Strays(Hardware hardware, Seat seat) {
    this.hardware = hardware;
    this.seat = seat;
  }

  /** Whether the wires behind the probes are tied to the sense buses where they are read. */
  private boolean senses() {
    return hardware.capabilities().kelvin() == Kelvin.TAIL
        && !(hardware.strays(Specimen.Pole.SENSE_HIGH).isEmpty()
            && hardware.strays(Specimen.Pole.SENSE_LOW).isEmpty());
  }

  /** Lays the wires; the buses that are forced come last. */
  void lay(Network network, Iterable<Contact> contacts, ToIntFunction<Contact> touched) {
    for (Contact contact : contacts) {
      int node = network.node();
      behind.put(contact, node);
      int tip = touched.applyAsInt(contact);
      if (tip >= 0) {
        tips.put(contact, tip);
        network.resistor(node, tip, seat.ohms(contact));
      }
    }
    if (senses()) {
      lay(network, Specimen.Pole.SENSE_HIGH);
      lay(network, Specimen.Pole.SENSE_LOW);
    }
    int high = network.node();
    int low = network.node();
    lay(network, Specimen.Pole.HIGH, high);
    lay(network, Specimen.Pole.LOW, low);
  }

  private void lay(Network network, Specimen.Pole pole) {
    lay(network, pole, network.node());
  }

  private void lay(Network network, Specimen.Pole pole, int bus) {
    Map<Contact, Integer> edges = new HashMap<>();
    buses.put(pole, bus);
    behind.forEach(
        (contact, node) -> edges.put(contact, network.resistor(bus, node, idle(contact, pole))));
    relays.put(pole, edges);
  }

  private double idle(Contact contact, Specimen.Pole pole) {
    return hardware.strays(pole).getOrDefault(contact, Double.POSITIVE_INFINITY);
  }

  /** Closes a relay, or lets go of it with an infinite resistance. */
  void switchTo(Solver state, Contact contact, Specimen.Pole pole, double ohms) {
    Integer edge = relays.getOrDefault(pole, Map.of()).get(contact);
    if (edge != null) {
      state.set(edge, Network.conductance(Math.min(ohms, idle(contact, pole))));
    }
  }

  /** Closes the sense relays of a pair, or lets go of them. */
  void sense(Solver state, Contact high, Contact low, boolean closed) {
    double ohms =
        closed
            ? hardware.capabilities().path().highOhms().value() + Network.LEAST_OHMS
            : Double.POSITIVE_INFINITY;
    switchTo(state, high, Specimen.Pole.SENSE_HIGH, ohms);
    switchTo(state, low, Specimen.Pole.SENSE_LOW, ohms);
  }

  /** Where the voltage of a contact is read when a fixture senses it. */
  OptionalInt sensed(Contact contact, boolean high) {
    if (senses()) {
      return OptionalInt.of(
          buses.getOrDefault(high ? Specimen.Pole.SENSE_HIGH : Specimen.Pole.SENSE_LOW, 0));
    }
    Integer node =
        hardware.capabilities().kelvin() == Kelvin.TIP && tips.containsKey(contact)
            ? tips.get(contact)
            : behind.get(contact);
    return node == null ? OptionalInt.empty() : OptionalInt.of(node);
  }
}
