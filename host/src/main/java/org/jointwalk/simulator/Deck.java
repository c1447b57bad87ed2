package org.jointwalk.simulator;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jointwalk.stack.Contact;

/**
 * A circuit in the words of SPICE, so that a program that is not ours can solve it.
 *
 * @param elements one element or model a line: resistors, diodes, current sources; node names are
 *     {@code n} and a number, and nothing is tied to node 0; diodes are told for 27 degrees Celsius
 * @param nodes the node under each probe tip that touches something
 */
public record Deck(String elements, Map<Contact, String> nodes) {

  /** k T / q at 27 degrees Celsius, which a model card's N is a multiple of. */
  private static final double NOMINAL_SLOPE = Diode.slope(1, 300.15);

  public Deck {
    nodes = Collections.unmodifiableMap(new LinkedHashMap<>(nodes));
  }

  static Deck of(Network network, Map<Contact, Integer> touched) {
    StringBuilder text = new StringBuilder();
    int resistors = 0;
    for (Network.Resistor resistor : network.resistors()) {
      if (resistor.siemens() > 0 && resistor.a() != resistor.b()) {
        text.append("R" + resistors++ + " n" + resistor.a() + " n" + resistor.b() + " ");
        text.append(1 / resistor.siemens()).append('\n');
      }
    }
    int diodes = 0;
    for (Network.Placed placed : network.junctions()) {
      Diode diode = placed.diode();
      text.append("D" + diodes + " n" + placed.anode() + " n" + placed.cathode() + " j" + diodes);
      text.append("\n.model j" + diodes++ + " D(IS=" + diode.saturation());
      text.append(" N=" + diode.slope() / NOMINAL_SLOPE + " RS=" + diode.series() + ")\n");
    }
    int sources = 0;
    for (Network.Source source : network.sources()) {
      text.append("I" + sources++ + " n" + source.from() + " n" + source.to() + " DC ");
      text.append(source.amps()).append('\n');
    }
    Map<Contact, String> nodes = new LinkedHashMap<>();
    touched.forEach((contact, node) -> nodes.put(contact, "n" + node));
    return new Deck(text.toString(), nodes);
  }
}
