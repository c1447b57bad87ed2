package org.jointwalk.simulator;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Step;
import org.jointwalk.stack.Contact;

/**
 * The terminals of a fixture on a circuit: closes switches, and says what flows and what is read
 * when something is driven. Whoever makes points of that decides about patterns. Not thread-safe.
 */
final class Terminals {

  /** What is laid across the terminals to see whether a voltage holds, in siemens. */
  static final double LOAD_SIEMENS = 1 / 10_000.0;

  /** Below this voltage a board counts as linear. */
  private static final double LINEAR_VOLTS = 1e-3;

  /** More than this between the idle buses is a fault and not leakage, in siemens. */
  private static final double WELDED_SIEMENS = 1e-4;

  private final Capabilities capabilities;
  private final Circuit circuit;
  private final Solver solver;
  private final Instrument instrument;

  /**
   * @param solver of the circuit's topology
   */
  Terminals(Capabilities capabilities, Circuit circuit, Solver solver, Instrument instrument) {
    this.capabilities = capabilities;
    this.circuit = circuit;
    this.solver = solver;
    this.instrument = instrument;
  }

  /** Closes the switches of a step. */
  Loop connect(Step step) {
    boolean sound = circuit.strays().isEmpty();
    if (step.isPair() && sound) {
      return pair(step);
    }
    // The probes become part of the circuit: each is a resistor to its bus.
    join(step.high(), true, sound);
    join(step.low(), false, sound);
    if (step.isPair()) {
      circuit.strays().ifPresent(s -> s.sense(solver, step.a(), step.b(), true));
    }
    return new Loop(
        true,
        circuit.bus(true),
        circuit.bus(false),
        Loop.Lead.NONE,
        Loop.Lead.NONE,
        0,
        Optional.of(step).filter(s -> !sound && s.isPair()));
  }

  /** Lets go of what was driven, and opens them. */
  void disconnect(Step step) {
    solver.release();
    if (step.kind() != Kind.ALL_OPEN && (!step.isPair() || circuit.strays().isPresent())) {
      step.high().forEach(c -> circuit.switchTo(solver, c, true, Double.POSITIVE_INFINITY));
      step.low().forEach(c -> circuit.switchTo(solver, c, false, Double.POSITIVE_INFINITY));
      if (step.isPair()) {
        circuit.strays().ifPresent(s -> s.sense(solver, step.a(), step.b(), false));
      }
    }
  }

  private Loop pair(Step step) {
    Optional<Integer> a = circuit.node(step.a());
    Optional<Integer> b = circuit.node(step.b());
    Loop.Lead high =
        new Loop.Lead(instrument.switchOhms(step.a(), true), instrument.probeOhms(step.a()));
    Loop.Lead low =
        new Loop.Lead(instrument.switchOhms(step.b(), false), instrument.probeOhms(step.b()));
    if (a.isEmpty() || b.isEmpty()) {
      return Loop.OPEN;
    }
    Loop loop = new Loop(true, a.get(), b.get(), high, low, circuit.farads(step.a(), step.b()));
    return Double.isInfinite(loop.series()) ? Loop.OPEN : loop;
  }

  private void join(List<Contact> contacts, boolean high, boolean withProbe) {
    for (Contact contact : contacts) {
      circuit.switchTo(
          solver,
          contact,
          high,
          instrument.switchOhms(contact, high) + (withProbe ? instrument.probeOhms(contact) : 0));
    }
  }

  /**
   * Both polarities of a source, averaged: what stays of the pattern + - - +. Of a junction that
   * conducts in one polarity only, half its current is seen.
   */
  Solver.Flow reversed(Loop loop, double amps, double compliance, double inside) {
    Optional<Solver.Flow> same = linear(loop, amps, compliance, inside);
    if (same.isPresent()) {
      return same.get();
    }
    Solver.Flow plus = driven(loop, amps, compliance, inside, true);
    Solver.Flow minus = driven(loop, amps, compliance, inside, false);
    return new Solver.Flow((plus.amps() + minus.amps()) / 2, (plus.volts() + minus.volts()) / 2);
  }

  /**
   * One polarity of a source, in its own direction: a current that reads positive flows the way it
   * is driven.
   *
   * @param plus whether that is from the high side to the low side
   */
  Solver.Flow polar(Loop loop, double amps, double compliance, double inside, boolean plus) {
    return linear(loop, amps, compliance, inside)
        .orElseGet(() -> driven(loop, amps, compliance, inside, plus));
  }

  /** What flows where the polarity does not matter, empty where it may. */
  private Optional<Solver.Flow> linear(Loop loop, double amps, double compliance, double inside) {
    double idle = instrument.idleSiemens();
    if (idle > WELDED_SIEMENS && circuit.strays().isEmpty()) {
      double ohms = loop.closed() ? loop.series() + solver.ohms(loop.a(), loop.b()) : 1e12;
      double seen = 1 / (1 / ohms + idle);
      double flow = Math.min(amps, compliance / (inside + seen));
      return Optional.of(new Solver.Flow(flow, flow * seen - flow * loop.series()));
    }
    if (!loop.closed()) {
      return Optional.of(new Solver.Flow(0, compliance));
    }
    double ohms = solver.ohms(loop.a(), loop.b());
    double flow = Math.min(amps, compliance / (inside + loop.series() + ohms));
    if (solver.isLive() || (solver.hasJunctions() && flow * ohms >= LINEAR_VOLTS)) {
      return Optional.empty();
    }
    return Optional.of(
        Double.isInfinite(ohms)
            ? new Solver.Flow(0, compliance)
            : new Solver.Flow(flow, flow * ohms));
  }

  private Solver.Flow driven(
      Loop loop, double amps, double compliance, double inside, boolean plus) {
    solver.release();
    return solver.drive(
        plus ? loop.a() : loop.b(),
        plus ? loop.b() : loop.a(),
        amps,
        compliance,
        inside + loop.series());
  }

  /** The same a while after the last reversal: a capacitor comes from -V to +V. */
  Solver.Flow settled(Loop loop, Solver.Flow flow, double wanted, double inside, double seconds) {
    if (!(loop.farads() > 0 && flow.amps() > 0)) {
      return flow;
    }
    double source = inside + loop.series();
    double tau = loop.farads() / (1 / source + flow.amps() / Math.max(flow.volts(), 1e-12));
    double left = 2 * StrictMath.exp(-seconds / tau);
    return new Solver.Flow(
        Math.min(wanted, flow.amps() + left * flow.volts() / source), flow.volts() * (1 - left));
  }

  /** What a source of voltage sees of a flow: the whole way from bus to bus, and what leaks. */
  Solver.Flow leaking(Loop loop, Solver.Flow flow) {
    double volts = flow.volts() + flow.amps() * loop.series();
    double leak = Math.min(instrument.idleSiemens(), WELDED_SIEMENS) * Math.abs(volts);
    return new Solver.Flow(flow.amps() + leak, volts);
  }

  /** The mean current of a while in which the nets came from nothing to a voltage. */
  Solver.Flow charging(Loop loop, double volts, double most, double seconds) {
    double amps = loop.closed() ? loop.farads() * volts / seconds : 0;
    return amps > most
        ? new Solver.Flow(most, volts * (most / amps))
        : new Solver.Flow(amps, volts);
  }

  /** What a source of voltage sees with every channel open. */
  Solver.Flow allOpen(double open, Range range) {
    double inside = range.compliance().value() / range.current().value();
    double idle = instrument.idleSiemens();
    double amps = open * idle / (inside * idle + 1);
    return new Solver.Flow(amps, open - amps * inside);
  }

  /** Voltage that is read when this current flows. */
  double sensed(Loop loop, double volts, double amps, Manner manner) {
    if (!loop.closed()) {
      return volts;
    }
    if (loop.strays().isPresent() && !manner.taps()) {
      return astray(loop, loop.strays().get(), volts);
    }
    double read = tapped(loop, volts, manner);
    double path = 0;
    double contact = 0;
    if (readsPath(manner.high())) {
      path += loop.high().switchOhms();
    }
    if (readsPath(manner.low())) {
      path += loop.low().switchOhms();
    }
    if (readsContact(manner.high())) {
      contact += loop.high().probeOhms();
    }
    if (readsContact(manner.low())) {
      contact += loop.low().probeOhms();
    }
    return read + amps * (path + contact);
  }

  /** What the sense wires show of the voltage between the buses. */
  private double astray(Loop loop, Step step, double volts) {
    if (capabilities.kelvin().readsPath() || Double.isInfinite(solver.ohms(loop.a(), loop.b()))) {
      return volts;
    }
    Strays strays = circuit.strays().orElseThrow();
    OptionalInt high = strays.sensed(step.a(), true);
    OptionalInt low = strays.sensed(step.b(), false);
    double[] potentials = solver.potentials(loop.a(), loop.b());
    double all = potentials[loop.a()] - potentials[loop.b()];
    return high.isEmpty() || low.isEmpty() || all == 0
        ? volts
        : volts * (potentials[high.getAsInt()] - potentials[low.getAsInt()]) / all;
  }

  private boolean readsPath(Manner.Sense sense) {
    return sense instanceof Manner.Sense.Force
        || (sense instanceof Manner.Sense.Own && capabilities.kelvin().readsPath());
  }

  private boolean readsContact(Manner.Sense sense) {
    return sense instanceof Manner.Sense.Force
        || (sense instanceof Manner.Sense.Own && capabilities.kelvin().readsContact());
  }

  /**
   * Voltage between the nodes that are sensed, where that between the forced ones is known: shared
   * out as it is about the state of rest.
   */
  private double tapped(Loop loop, double volts, Manner manner) {
    if (!manner.taps()) {
      return volts;
    }
    OptionalInt high = sensed(manner.high(), loop.a());
    OptionalInt low = sensed(manner.low(), loop.b());
    double[] potentials = solver.potentials(loop.a(), loop.b());
    double all = potentials[loop.a()] - potentials[loop.b()];
    return high.isEmpty() || low.isEmpty() || all == 0
        ? 0
        : volts * (potentials[high.getAsInt()] - potentials[low.getAsInt()]) / all;
  }

  private OptionalInt sensed(Manner.Sense sense, int forced) {
    if (!(sense instanceof Manner.Sense.At at)) {
      return OptionalInt.of(forced);
    }
    boolean lands = Double.isFinite(instrument.probeOhms(at.contact()));
    return circuit
        .node(at.contact())
        .filter(node -> lands)
        .map(OptionalInt::of)
        .orElse(OptionalInt.empty());
  }

  /** Voltage across the terminals with nothing sourced, and a load across them or none. */
  double idle(Loop loop, double loadSiemens) {
    if (!loop.closed()) {
      return 0;
    }
    double ohms = solver.ohms(loop.a(), loop.b()) + loop.series();
    return solver.volts(loop.a(), loop.b())
        / (Double.isInfinite(ohms) ? 1 : 1 + ohms * loadSiemens);
  }

  /**
   * What flows when a current is driven into junctions: held to the last, or not at all. Rising
   * currents start from where the last one ended; {@link #disconnect} ends that.
   */
  Solver.Flow held(Loop loop, double amps, double compliance, boolean plus) {
    return loop.closed()
        ? solver.drive(
            plus ? loop.a() : loop.b(), plus ? loop.b() : loop.a(), amps, compliance, loop.series())
        : new Solver.Flow(0, compliance);
  }

  /** The voltage of nets that had one, a while after a flow began. */
  static double charged(Loop loop, double before, Solver.Flow flow, double seconds) {
    if (!(loop.closed() && loop.farads() > 0)) {
      return flow.volts();
    }
    double tau = loop.farads() * Math.max(flow.volts(), 1e-9) / flow.amps();
    return before + (flow.volts() - before) * -StrictMath.expm1(-seconds / tau);
  }
}
