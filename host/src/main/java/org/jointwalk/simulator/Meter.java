package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.files.Names;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Amps;
import org.jointwalk.stack.Contact;

/** Takes the readings of one seating. Not thread-safe. */
final class Meter {

  /** Less than this share of the current asked for is no reading any more. */
  private static final double LEAST_SHARE = 0.01;

  /** Below this voltage a board counts as linear. */
  private static final double LINEAR_VOLTS = 1e-3;

  private static final double LOAD_OHMS = 10_000;

  /** More than this between the idle buses is a fault and not leakage, in siemens. */
  private static final double WELDED_SIEMENS = 1e-4;

  private final Capabilities capabilities;
  private final Hardware hardware;
  private final Seat seat;
  private final Circuit circuit;
  private final Noise noise;

  /**
   * @param circuit what the probes touch; with buses when groups are to be read
   */
  Meter(Hardware hardware, Seat seat, Circuit circuit, Noise noise) {
    this.capabilities = hardware.capabilities();
    this.hardware = hardware;
    this.seat = seat;
    this.circuit = circuit;
    this.noise = noise;
  }

  /**
   * What the source sees.
   *
   * @param closed false when a switch or probe does not conduct
   * @param pathOhms both switches
   * @param contactOhms both probes
   */
  private record Loop(boolean closed, int a, int b, double pathOhms, double contactOhms) {

    static final Loop OPEN = new Loop(false, 0, 0, 0, 0);

    double series() {
      return pathOhms + contactOhms;
    }
  }

  Reading read(int index, Step step) {
    Optional<Range> found = capabilities.range(step.kind());
    if (found.isEmpty()) {
      return new Reading.Refused(index, "this fixture has no range for " + step.kind());
    }
    Range range = found.get();
    noise.begin(step);
    if (step.kind() == Kind.ALL_OPEN) {
      return allOpen(index, step, range);
    }
    Loop loop = step.isPair() ? pair(step) : group(step);
    Reading reading =
        switch (step.kind()) {
          case LOW_LEVEL, NORMAL_LEVEL -> resistance(index, step, range, loop);
          case ISOLATION -> isolation(index, step, range, loop);
          case JUNCTION -> junction(index, step, range, loop);
          case RESIDUAL -> residual(index, step, range, loop, 0);
          case RESIDUAL_LOADED, DISCHARGE -> residual(index, step, range, loop, 1 / LOAD_OHMS);
          case CHARGE -> new Reading.Refused(index, "this fixture measures no capacitance");
          case ALL_OPEN -> allOpen(index, step, range);
        };
    circuit.solver().release();
    if (!step.isPair()) {
      step.high().forEach(c -> circuit.switchTo(c, true, Double.POSITIVE_INFINITY));
      step.low().forEach(c -> circuit.switchTo(c, false, Double.POSITIVE_INFINITY));
    }
    return reading;
  }

  private double switchOhms(Contact contact, boolean high) {
    return hardware.switchOhms(contact, high, noise.closure(contact));
  }

  private Loop pair(Step step) {
    Optional<Integer> a = circuit.node(step.a());
    Optional<Integer> b = circuit.node(step.b());
    double contacts = seat.ohms(step.a()) + seat.ohms(step.b());
    if (a.isEmpty()
        || b.isEmpty()
        || Double.isInfinite(contacts)
        || hardware.isStuckOpen(step.a())
        || hardware.isStuckOpen(step.b())) {
      return Loop.OPEN;
    }
    double path = switchOhms(step.a(), true) + switchOhms(step.b(), false);
    return new Loop(true, a.get(), b.get(), path, contacts);
  }

  /** Joins the contacts of each side on its bus; the probes are then part of the circuit. */
  private Loop group(Step step) {
    join(step.high(), true);
    join(step.low(), false);
    return new Loop(true, circuit.bus(true), circuit.bus(false), 0, 0);
  }

  private void join(List<Contact> contacts, boolean high) {
    for (Contact contact : contacts) {
      double probe = seat.ohms(contact);
      if (!Double.isInfinite(probe) && !hardware.isStuckOpen(contact)) {
        circuit.switchTo(contact, high, switchOhms(contact, high) + probe);
      }
    }
  }

  private static double compliance(Step step, Range range) {
    return Math.min(step.compliance().value(), range.compliance().value());
  }

  /** Both polarities of a source, averaged: what stays of the pattern + - - +. */
  private Solver.Flow reversed(Loop loop, double amps, double compliance, double inside) {
    Solver solver = circuit.solver();
    if (hardware.idleSiemens() > WELDED_SIEMENS) {
      double ohms = loop.closed() ? loop.series() + solver.ohms(loop.a(), loop.b()) : 1e12;
      double seen = 1 / (1 / ohms + hardware.idleSiemens());
      double flow = Math.min(amps, compliance / (inside + seen));
      return new Solver.Flow(flow, flow * (seen - loop.series()));
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

  /** Voltage at the sense wires when this current flows. */
  private double sensed(Loop loop, Solver.Flow flow) {
    double ohms = 0;
    if (capabilities.kelvin().readsPath()) {
      ohms += loop.pathOhms();
    }
    if (capabilities.kelvin().readsContact()) {
      ohms += loop.contactOhms();
    }
    return flow.volts() + flow.amps() * ohms;
  }

  private Reading resistance(int index, Step step, Range range, Loop loop) {
    double wanted =
        step.currents().isEmpty() ? range.current().value() : step.currents().get(0).value();
    double inside = range.compliance().value() / range.current().value();
    Solver.Flow flow = reversed(loop, wanted, compliance(step, range), inside);
    double volts = sensed(loop, flow);
    List<Reading.Point> points = new ArrayList<>();
    for (int i = 0; i < step.samples(); i++) {
      points.add(noise.point(range, volts, flow.amps()));
    }
    return flow.amps() < LEAST_SHARE * wanted
        ? new Reading.OverRange(index, points)
        : new Reading.Measured(index, points);
  }

  private Reading isolation(int index, Step step, Range range, Loop loop) {
    Solver.Flow flow = reversed(loop, range.current().value(), compliance(step, range), 0);
    double volts = flow.volts() + flow.amps() * loop.series();
    double leak = Math.min(hardware.idleSiemens(), WELDED_SIEMENS) * volts;
    List<Reading.Point> points = new ArrayList<>();
    for (int i = 0; i < step.samples(); i++) {
      points.add(noise.current(range, volts, flow.amps() + leak));
    }
    return new Reading.Measured(index, points);
  }

  private Reading junction(int index, Step step, Range range, Loop loop) {
    List<Amps> currents = new ArrayList<>(step.currents());
    if (!currents.isEmpty()) {
      currents.add(currents.get(0));
    }
    double compliance = compliance(step, range);
    boolean over = false;
    List<Reading.Point> points = new ArrayList<>();
    for (Amps amps : currents) {
      Solver.Flow flow =
          loop.closed()
              ? circuit.solver().drive(loop.a(), loop.b(), amps.value(), compliance, loop.series())
              : new Solver.Flow(0, compliance);
      over |= flow.amps() < 0.999 * amps.value();
      points.add(noise.point(range, sensed(loop, flow), flow.amps()));
    }
    return over || points.isEmpty()
        ? new Reading.OverRange(index, points)
        : new Reading.Measured(index, points);
  }

  private Reading residual(int index, Step step, Range range, Loop loop, double loadSiemens) {
    double volts = 0;
    if (loop.closed()) {
      double ohms = circuit.solver().ohms(loop.a(), loop.b()) + loop.series();
      volts = circuit.solver().volts(loop.a(), loop.b());
      volts /= Double.isInfinite(ohms) ? 1 : 1 + ohms * loadSiemens;
    }
    List<Reading.Point> points = new ArrayList<>();
    for (int i = 0; i < step.samples(); i++) {
      points.add(new Reading.Point(noise.point(range, volts, 0).volts(), 0));
    }
    return new Reading.Measured(index, points);
  }

  private Reading allOpen(int index, Step step, Range range) {
    double open = compliance(step, range);
    double inside = range.compliance().value() / range.current().value();
    double amps = open / (inside + 1 / hardware.idleSiemens());
    List<Reading.Point> points = new ArrayList<>();
    for (int i = 0; i < step.samples(); i++) {
      points.add(noise.point(range, open - amps * inside, amps));
    }
    return new Reading.Measured(index, points);
  }

  /** Which contacts a step names, for the path's own thermal voltage. */
  static String pathOf(Step step) {
    return step.isPair() ? Names.of(step.a()) + " " + Names.of(step.b()) : step.kind().name();
  }
}
