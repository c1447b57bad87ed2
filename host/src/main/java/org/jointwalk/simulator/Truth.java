package org.jointwalk.simulator;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;

/**
 * What is really in a virtual fixture, without noise: resistances between probe tips, readings that
 * a perfect meter behind typical switches and probes would give, and how well each fault shows. Not
 * thread-safe; make one per thread.
 */
public final class Truth {

  private final Assembly assembly;
  private final Sound sound;
  private final Defects defects;
  private final Set<Component> heldShut;
  private final List<Contact> contacts;
  private final Capabilities capabilities;
  private final Circuit circuit;

  Truth(
      Assembly assembly,
      Sound sound,
      Defects defects,
      Set<Component> heldShut,
      List<Contact> contacts,
      Capabilities capabilities,
      Optional<Pattern> known) {
    this.assembly = assembly;
    this.sound = sound;
    this.defects = defects;
    this.heldShut = Set.copyOf(heldShut);
    this.contacts = List.copyOf(contacts);
    this.capabilities = capabilities;
    circuit =
        new Circuit(
            assembly,
            sound,
            defects,
            contacts,
            capabilities.switching().groups(),
            Optional.empty(),
            known);
  }

  /** What is clamped, even if the job believes otherwise. */
  public Assembly assembly() {
    return assembly;
  }

  /** The defects as they act in this seating: what comes and goes has come or gone. */
  public Defects defects() {
    return defects;
  }

  /** The components that conduct in this seating although they do not always. */
  public Set<Component> heldShut() {
    return heldShut;
  }

  /** This truth with one more fault, or with another condition of the same component. */
  public Truth with(Component component, Condition condition) {
    return changed(defects.with(component, condition));
  }

  /** This truth with a component sound. */
  public Truth without(Component component) {
    return changed(defects.without(component));
  }

  private Truth changed(Defects other) {
    return new Truth(
        assembly, sound, other, heldShut, contacts, capabilities, Optional.of(circuit.pattern()));
  }

  /**
   * Resistance between two probe tips near zero volt, in ohm; infinite when nothing joins them.
   * About a microsecond.
   */
  public double ohms(Contact a, Contact b) {
    return meter(circuit.solver()).ohms(a, b);
  }

  /** How far that lies from the same of other stacks with these faults: one standard deviation. */
  double spreadOhms(Contact a, Contact b) {
    return meter(circuit.solver()).spreadOhms(a, b);
  }

  /** The reading of a step without noise, through typical switches and probes that all landed. */
  public Reading reading(Step step) {
    return meter(circuit.solver()).read(0, step);
  }

  /** The circuit for a solver from outside. */
  public Deck deck() {
    return circuit.deck();
  }

  private Meter meter(Solver state) {
    return new Meter(capabilities, circuit, state, new PlainInstrument(capabilities));
  }

  /**
   * How well one of the defects shows on this fixture while all others remain: the largest change
   * over the steps that the ceilings allow, single contacts against single contacts. Good parts
   * count with their spread, since nobody knows what they measured before the fault. Some ten
   * milliseconds for a ring of 420.
   *
   * @param fault a component of {@link #defects}; one that is sound, hidden or not in the fixture
   *     shows nothing
   */
  public Visibility visibility(Component fault) {
    return visibility(fault, false);
  }

  /**
   * The same for an observer who knows the value of every good part of this very stack, as nobody
   * does: what the spread of good parts hides is the difference.
   */
  public Visibility visibilityWithPartsKnown(Component fault) {
    return visibility(fault, true);
  }

  private Visibility visibility(Component fault, boolean partsKnown) {
    return isShown(fault) ? showing(fault, partsKnown).of(fault, shares(fault)) : Visibility.NONE;
  }

  /** Whether a fault changes anything that a probe could find. */
  private boolean isShown(Component fault) {
    return circuit.ends(fault).isPresent()
        || (defects.of(fault).isPresent()
            && fault instanceof Component.NetOf netOf
            && assembly.setUp().boards().contains(netOf.net().side()));
  }

  /** Compares the circuit as it is with the same without one fault. */
  Showing showing(Component fault, boolean partsKnown) {
    Meter repaired =
        circuit
            .ends(fault)
            .map(ends -> meter(circuit.repaired(ends)))
            .orElseGet(
                () -> {
                  Truth without = without(fault);
                  return without.meter(without.circuit.solver());
                });
    return new Showing(
        assembly, capabilities, contacts, meter(circuit.solver()), repaired, partsKnown);
  }

  /**
   * The potential of each contact when one ampere is driven through the conductor that a fault
   * changes, times its conductance; by reciprocity the difference between two contacts is the share
   * of their current that passes it. Empty for a fault that changes more than one.
   */
  private Map<Contact, Double> shares(Component fault) {
    Map<Contact, Double> shares = new LinkedHashMap<>();
    circuit
        .ends(fault)
        .ifPresent(
            ends -> {
              boolean cut = ends.soundSiemens() > circuit.solver().siemens(ends.edge());
              Solver joined = cut ? circuit.repaired(ends) : circuit.solver();
              double[] potentials = joined.potentials(ends.a(), ends.b());
              double siemens = joined.siemens(ends.edge());
              for (Contact contact : contacts) {
                circuit
                    .node(contact)
                    .ifPresent(node -> shares.put(contact, siemens * potentials[node]));
              }
            });
    return shares;
  }
}
