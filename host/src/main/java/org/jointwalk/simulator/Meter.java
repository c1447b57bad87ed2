package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Supplier;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Amps;
import org.jointwalk.stack.Contact;

/**
 * Takes readings of a circuit through an instrument, as the Javadoc of {@link Reading} and {@link
 * Kind} promises them. A step that joins several contacts on a bus is read from bus to bus,
 * switches and probes included. Not thread-safe.
 */
final class Meter {

  /** Less than this share of the current asked for is no reading any more. */
  private static final double LEAST_SHARE = 0.01;

  /** Below this voltage a board counts as linear. */
  private static final double LINEAR_VOLTS = 1e-3;

  private static final double LOAD_OHMS = 10_000;

  /** More than this between the idle buses is a fault and not leakage, in siemens. */
  private static final double WELDED_SIEMENS = 1e-4;

  private final Capabilities capabilities;
  private final Circuit circuit;
  private final Solver solver;
  private final Instrument instrument;

  /**
   * @param circuit what the probes touch; with buses when groups are to be read
   */
  Meter(Capabilities capabilities, Circuit circuit, Instrument instrument) {
    this(capabilities, circuit, circuit.solver(), instrument);
  }

  /**
   * @param solver of the circuit's topology, in another state
   */
  Meter(Capabilities capabilities, Circuit circuit, Solver solver, Instrument instrument) {
    this.capabilities = capabilities;
    this.circuit = circuit;
    this.solver = solver;
    this.instrument = instrument;
  }

  /**
   * What the source sees.
   *
   * @param closed false when a switch or probe does not conduct
   * @param high switch and probe of the high side
   * @param low switch and probe of the low side
   * @param farads between the nets behind the contacts
   */
  private record Loop(boolean closed, int a, int b, Lead high, Lead low, double farads) {

    static final Loop OPEN = new Loop(false, 0, 0, Lead.NONE, Lead.NONE, 0);

    double pathOhms() {
      return high.switchOhms() + low.switchOhms();
    }

    double contactOhms() {
      return high.probeOhms() + low.probeOhms();
    }

    double series() {
      return pathOhms() + contactOhms();
    }
  }

  /** The way from a bus to a probe's tip. */
  private record Lead(double switchOhms, double probeOhms) {

    static final Lead NONE = new Lead(0, 0);
  }

  /** Resistance between two probe tips near zero volt, in ohm; infinite when nothing joins them. */
  double ohms(Contact a, Contact b) {
    Optional<Integer> from = circuit.node(a);
    Optional<Integer> to = circuit.node(b);
    return from.isEmpty() || to.isEmpty()
        ? Double.POSITIVE_INFINITY
        : solver.ohms(from.get(), to.get());
  }

  /** How far that may lie from the same of another stack, since good parts differ, in ohm. */
  double spreadOhms(Contact a, Contact b) {
    return circuit.spreadOhms(solver, a, b);
  }

  /** Whether the circuit drives a current by itself. */
  boolean isLive() {
    return solver.isLive();
  }

  /** Takes as many points as the step asks for, through the fixture's own sense wires. */
  Reading read(int index, Step step) {
    return read(index, step, Manner.usual(step));
  }

  Reading read(int index, Step step, Manner manner) {
    Optional<Range> found = capabilities.range(step.kind());
    if (found.isEmpty()) {
      return new Reading.Refused(index, "this fixture has no range for " + step.kind());
    }
    Range range = found.get();
    instrument.begin(step);
    Loop loop = step.kind() == Kind.ALL_OPEN ? Loop.OPEN : connect(step);
    Reading reading =
        switch (step.kind()) {
          case LOW_LEVEL, NORMAL_LEVEL -> resistance(index, step, range, loop, manner);
          case ISOLATION -> isolation(index, step, range, loop, manner);
          case JUNCTION -> junction(index, step, range, loop, manner);
          case RESIDUAL -> residual(index, range, loop, 0, manner);
          case RESIDUAL_LOADED, DISCHARGE -> residual(index, range, loop, 1 / LOAD_OHMS, manner);
          case CHARGE -> charge(index, step, range, loop, manner);
          case ALL_OPEN -> allOpen(index, step, range, manner);
        };
    solver.release();
    disconnect(step);
    return reading;
  }

  private Loop connect(Step step) {
    if (step.isPair()) {
      return pair(step);
    }
    // The probes become part of the circuit: each is a resistor to its bus.
    join(step.high(), true);
    join(step.low(), false);
    return new Loop(true, circuit.bus(true), circuit.bus(false), Lead.NONE, Lead.NONE, 0);
  }

  private void disconnect(Step step) {
    if (!step.isPair()) {
      step.high().forEach(c -> circuit.switchTo(solver, c, true, Double.POSITIVE_INFINITY));
      step.low().forEach(c -> circuit.switchTo(solver, c, false, Double.POSITIVE_INFINITY));
    }
  }

  private Loop pair(Step step) {
    Optional<Integer> a = circuit.node(step.a());
    Optional<Integer> b = circuit.node(step.b());
    Lead high = new Lead(instrument.switchOhms(step.a(), true), instrument.probeOhms(step.a()));
    Lead low = new Lead(instrument.switchOhms(step.b(), false), instrument.probeOhms(step.b()));
    if (a.isEmpty() || b.isEmpty()) {
      return Loop.OPEN;
    }
    Loop loop = new Loop(true, a.get(), b.get(), high, low, circuit.farads(step.a(), step.b()));
    return Double.isInfinite(loop.series()) ? Loop.OPEN : loop;
  }

  private void join(List<Contact> contacts, boolean high) {
    for (Contact contact : contacts) {
      circuit.switchTo(
          solver,
          contact,
          high,
          instrument.switchOhms(contact, high) + instrument.probeOhms(contact));
    }
  }

  private static double compliance(Step step, Range range) {
    return Math.min(step.compliance().value(), range.compliance().value());
  }

  /**
   * Both polarities of a source, averaged: what stays of the pattern + - - +. Of a junction that
   * conducts in one polarity only, half its current is seen.
   */
  private Solver.Flow reversed(Loop loop, double amps, double compliance, double inside) {
    double idle = instrument.idleSiemens();
    if (idle > WELDED_SIEMENS) {
      double ohms = loop.closed() ? loop.series() + solver.ohms(loop.a(), loop.b()) : 1e12;
      double seen = 1 / (1 / ohms + idle);
      double flow = Math.min(amps, compliance / (inside + seen));
      return new Solver.Flow(flow, flow * seen - flow * loop.series());
    }
    if (!loop.closed()) {
      return new Solver.Flow(0, compliance);
    }
    double series = inside + loop.series();
    double ohms = solver.ohms(loop.a(), loop.b());
    double linear = Math.min(amps, compliance / (series + ohms));
    if (!solver.isLive() && (!solver.hasJunctions() || linear * ohms < LINEAR_VOLTS)) {
      return Double.isInfinite(ohms)
          ? new Solver.Flow(0, compliance)
          : new Solver.Flow(linear, linear * ohms);
    }
    Solver.Flow plus = solver.drive(loop.a(), loop.b(), amps, compliance, series);
    solver.release();
    Solver.Flow minus = solver.drive(loop.b(), loop.a(), amps, compliance, series);
    return new Solver.Flow((plus.amps() + minus.amps()) / 2, (plus.volts() + minus.volts()) / 2);
  }

  /** Voltage that is read when this current flows. */
  private double sensed(Loop loop, double volts, double amps, Manner manner) {
    if (!loop.closed()) {
      return volts;
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

  /** Points, one after the other, until there are enough. */
  private static List<Reading.Point> points(
      Manner manner, boolean over, Supplier<Reading.Point> next) {
    List<Reading.Point> points = new ArrayList<>();
    do {
      points.add(next.get());
    } while (!manner.enough().after(points, over));
    return points;
  }

  private Reading resistance(int index, Step step, Range range, Loop loop, Manner manner) {
    double most = range.current().value();
    double wanted =
        step.currents().isEmpty() ? most : Math.min(most, step.currents().get(0).value());
    double compliance = compliance(step, range);
    // The source is a voltage behind the resistor that lets the current pass into a short.
    double inside = compliance / wanted;
    Solver.Flow flow = reversed(loop, wanted, compliance, inside);
    double volts = flow.volts();
    double amps = flow.amps();
    if (loop.farads() > 0 && amps > 0) {
      // From the last reversal the capacitor has one reading's time to come from -V to +V.
      double source = inside + loop.series();
      double tau = loop.farads() / (1 / source + amps / Math.max(volts, 1e-12));
      double left = 2 * StrictMath.exp(-range.seconds() / tau);
      amps = Math.min(wanted, amps + left * volts / source);
      volts *= 1 - left;
    }
    double read = sensed(loop, volts, amps, manner);
    double flowing = amps;
    boolean over = amps < LEAST_SHARE * wanted;
    List<Reading.Point> points = points(manner, over, () -> instrument.volts(range, read, flowing));
    return over ? new Reading.OverRange(index, points) : new Reading.Measured(index, points);
  }

  /** A source of voltage is quick, and its reading waits until what charges has been charged. */
  private Reading isolation(int index, Step step, Range range, Loop loop, Manner manner) {
    double most = range.current().value();
    Solver.Flow flow = reversed(loop, most, compliance(step, range), 0);
    double volts = flow.volts() + flow.amps() * loop.series();
    double amps =
        flow.amps() + Math.min(instrument.idleSiemens(), WELDED_SIEMENS) * Math.abs(volts);
    return new Reading.Measured(
        index, points(manner, false, () -> instrument.amps(range, volts, amps)));
  }

  private Reading junction(int index, Step step, Range range, Loop loop, Manner manner) {
    List<Amps> currents = new ArrayList<>(step.currents());
    if (!currents.isEmpty()) {
      currents.add(currents.get(0));
    }
    double compliance = compliance(step, range);
    boolean over = currents.isEmpty();
    double charged = 0;
    List<Reading.Point> points = new ArrayList<>();
    for (Amps amps : currents) {
      Solver.Flow flow = new Solver.Flow(0, compliance);
      if (loop.closed()) {
        flow = solver.drive(loop.a(), loop.b(), amps.value(), compliance, loop.series());
        if (loop.farads() > 0) {
          double tau = loop.farads() * Math.max(flow.volts(), 1e-9) / flow.amps();
          charged += (flow.volts() - charged) * -StrictMath.expm1(-range.seconds() / tau);
          flow = new Solver.Flow(flow.amps(), charged);
        }
      }
      over |= flow.amps() < 0.999 * amps.value();
      points.add(
          instrument.volts(range, sensed(loop, flow.volts(), flow.amps(), manner), flow.amps()));
    }
    return over ? new Reading.OverRange(index, points) : new Reading.Measured(index, points);
  }

  private Reading residual(int index, Range range, Loop loop, double loadSiemens, Manner manner) {
    double ohms = loop.closed() ? solver.ohms(loop.a(), loop.b()) + loop.series() : 0;
    double volts = idle(loop) / (Double.isInfinite(ohms) ? 1 : 1 + ohms * loadSiemens);
    return new Reading.Measured(
        index,
        points(
            manner, false, () -> new Reading.Point(instrument.volts(range, volts, 0).volts(), 0)));
  }

  private double idle(Loop loop) {
    return loop.closed() ? solver.volts(loop.a(), loop.b()) : 0;
  }

  /** Voltage across the terminals of a step before anything is sourced, without noise. */
  double idleVolts(Step step) {
    Loop loop = connect(step);
    double volts = idle(loop);
    solver.release();
    disconnect(step);
    return volts;
  }

  /** The mean current that brought the nets to the voltage in one reading's time. */
  private Reading charge(int index, Step step, Range range, Loop loop, Manner manner) {
    double volts = compliance(step, range);
    double amps = loop.closed() ? loop.farads() * volts / range.seconds() : 0;
    double most = range.current().value();
    double flowing = Math.min(amps, most);
    double reached = amps > most ? volts * (most / amps) : volts;
    return new Reading.Measured(
        index, points(manner, false, () -> instrument.amps(range, reached, flowing)));
  }

  private Reading allOpen(int index, Step step, Range range, Manner manner) {
    double open = compliance(step, range);
    double inside = range.compliance().value() / range.current().value();
    double idle = instrument.idleSiemens();
    double amps = open * idle / (inside * idle + 1);
    return new Reading.Measured(
        index, points(manner, false, () -> instrument.volts(range, open - amps * inside, amps)));
  }
}
