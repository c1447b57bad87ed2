package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
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

  /** So many contacts of highest and of lowest potential are looked at. */
  private static final int EXTREMES = 4;

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
        new Circuit(assembly, sound, defects, contacts, capabilities.switching().groups(), known);
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
    Optional<Integer> from = circuit.node(a);
    Optional<Integer> to = circuit.node(b);
    return from.isEmpty() || to.isEmpty()
        ? Double.POSITIVE_INFINITY
        : circuit.solver().ohms(from.get(), to.get());
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
   * over the steps that the ceilings allow, single contacts against single contacts. A few
   * milliseconds for a ring of 420.
   *
   * @param fault a component of {@link #defects}; one that is sound, hidden or not in the fixture
   *     shows nothing
   */
  public Visibility visibility(Component fault) {
    if (defects.of(fault).isEmpty()) {
      return Visibility.NONE;
    }
    Optional<Circuit.Ends> ends = circuit.ends(fault);
    Meter faulty = meter(circuit.solver());
    if (ends.isPresent()) {
      Solver repaired = circuit.repaired(ends.get());
      boolean cut = ends.get().soundSiemens() > circuit.solver().siemens(ends.get().edge());
      double[] potentials =
          (cut ? repaired : circuit.solver()).potentials(ends.get().a(), ends.get().b());
      List<Contact> extremes = extremes(potentials);
      return new Showing(assembly, capabilities, contacts, faulty, meter(repaired))
          .of(fault, extremes);
    }
    if (!(fault instanceof Component.NetOf netOf)
        || !assembly.setUp().boards().contains(netOf.net().side())) {
      return Visibility.NONE;
    }
    Truth repaired = without(fault);
    return new Showing(
            assembly, capabilities, contacts, faulty, repaired.meter(repaired.circuit.solver()))
        .of(fault, List.of());
  }

  /**
   * The contacts at which a unit current through the changed conductor makes the highest and the
   * lowest potential. What a pair's resistance changes by grows with the difference of the two
   * potentials squared, so no pair changes more than the first with the last.
   */
  private List<Contact> extremes(double[] potentials) {
    List<Contact> touching = contacts.stream().filter(c -> circuit.node(c).isPresent()).toList();
    List<Contact> sorted = new ArrayList<>(touching);
    sorted.sort(Comparator.comparingDouble(c -> potentials[circuit.node(c).orElseThrow()]));
    int n = sorted.size();
    if (n <= 2 * EXTREMES) {
      return sorted;
    }
    List<Contact> ends = new ArrayList<>(sorted.subList(0, EXTREMES));
    ends.addAll(sorted.subList(n - EXTREMES, n));
    return ends;
  }
}
