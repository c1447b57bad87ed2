package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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

  private final Capabilities capabilities;
  private final Circuit circuit;
  private final Solver solver;
  private final Instrument instrument;
  private final Terminals terminals;

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
    terminals = new Terminals(capabilities, circuit, solver, instrument);
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
    Loop loop = step.kind() == Kind.ALL_OPEN ? Loop.OPEN : terminals.connect(step);
    Reading reading =
        switch (step.kind()) {
          case LOW_LEVEL, NORMAL_LEVEL -> resistance(index, step, range, loop, manner);
          case ISOLATION -> isolation(index, step, range, loop, manner);
          case JUNCTION -> junction(index, step, range, loop, manner);
          case RESIDUAL -> residual(index, range, loop, 0, manner);
          case RESIDUAL_LOADED, DISCHARGE ->
              residual(index, range, loop, Terminals.LOAD_SIEMENS, manner);
          case CHARGE -> charge(index, step, range, loop, manner);
          case ALL_OPEN -> allOpen(index, step, range, manner);
        };
    terminals.disconnect(step);
    return reading;
  }

  private static double compliance(Step step, Range range) {
    return Math.min(step.compliance().value(), range.compliance().value());
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
    Solver.Flow flow =
        terminals.settled(
            loop,
            terminals.reversed(loop, wanted, compliance, inside),
            wanted,
            inside,
            range.seconds());
    double read = terminals.sensed(loop, flow.volts(), flow.amps(), manner);
    boolean over = flow.amps() < LEAST_SHARE * wanted;
    List<Reading.Point> points =
        points(manner, over, () -> instrument.volts(range, read, flow.amps()));
    return over ? new Reading.OverRange(index, points) : new Reading.Measured(index, points);
  }

  /** A source of voltage is quick, and its reading waits until what charges has been charged. */
  private Reading isolation(int index, Step step, Range range, Loop loop, Manner manner) {
    double most = range.current().value();
    Solver.Flow flow =
        terminals.leaking(loop, terminals.reversed(loop, most, compliance(step, range), 0));
    return new Reading.Measured(
        index, points(manner, false, () -> instrument.amps(range, flow.volts(), flow.amps())));
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
      boolean plus = amps.value() >= 0;
      double size = Math.abs(amps.value());
      Solver.Flow flow = terminals.held(loop, size, compliance, plus);
      charged = Terminals.charged(loop, plus ? charged : -charged, flow, range.seconds());
      double read = terminals.sensed(loop, charged, flow.amps(), manner);
      over |= flow.amps() < 0.999 * size;
      Reading.Point point = instrument.volts(range, read, flow.amps());
      points.add(plus ? point : new Reading.Point(-point.volts(), -point.amps()));
      charged = plus ? charged : -charged;
    }
    return over ? new Reading.OverRange(index, points) : new Reading.Measured(index, points);
  }

  private Reading residual(int index, Range range, Loop loop, double loadSiemens, Manner manner) {
    double volts = terminals.idle(loop, loadSiemens);
    return new Reading.Measured(
        index,
        points(
            manner, false, () -> new Reading.Point(instrument.volts(range, volts, 0).volts(), 0)));
  }

  /** Voltage across the terminals of a step before anything is sourced, without noise. */
  double idleVolts(Step step) {
    Loop loop = terminals.connect(step);
    double volts = terminals.idle(loop, 0);
    terminals.disconnect(step);
    return volts;
  }

  /** The mean current that brought the nets to the voltage in one reading's time. */
  private Reading charge(int index, Step step, Range range, Loop loop, Manner manner) {
    Solver.Flow flow =
        terminals.charging(loop, compliance(step, range), range.current().value(), range.seconds());
    return new Reading.Measured(
        index, points(manner, false, () -> instrument.amps(range, flow.volts(), flow.amps())));
  }

  private Reading allOpen(int index, Step step, Range range, Manner manner) {
    Solver.Flow flow = terminals.allOpen(compliance(step, range), range);
    return new Reading.Measured(
        index, points(manner, false, () -> instrument.volts(range, flow.volts(), flow.amps())));
  }
}
