package org.jointwalk.solve;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Measurement;
import org.jointwalk.quantity.Amps;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.Reference;

/**
 * The drops of one net's junction, read through one contact.
 *
 * @param amps the currents, ascending
 * @param volts the drop at each, in volt; at the first the mean of its two readings, which takes
 *     off a slow drift
 */
record Junction(Contact contact, Net net, List<Amps> amps, List<Double> volts) {

  /** Less than this share of the smallest current is no path. */
  private static final double LEAST_SHARE = 0.8;

  /** A source this near to its largest voltage has met none. */
  private static final double AT_COMPLIANCE = 0.98;

  Junction {
    amps = List.copyOf(amps);
    volts = List.copyOf(volts);
  }

  /** Whether the smallest current of a junction step went through. */
  static boolean conducts(Step step, Reading reading) {
    List<Reading.Point> points = points(reading);
    return !points.isEmpty()
        && points.get(0).amps() > LEAST_SHARE * step.currents().get(0).value()
        && points.get(0).volts() < AT_COMPLIANCE * step.compliance().value();
  }

  private static List<Reading.Point> points(Reading reading) {
    if (reading instanceof Reading.Measured measured) {
      return measured.points();
    }
    return reading instanceof Reading.OverRange over ? over.points() : List.of();
  }

  /** What a measurement says of a junction; empty when not every current went through. */
  static Optional<Junction> of(Measurement m, Assembly assembly) {
    Step step = m.step();
    int currents = step.currents().size();
    if (step.kind() != Kind.JUNCTION
        || !(m.reading() instanceof Reading.Measured measured)
        || measured.points().size() <= currents
        || !conducts(step, measured)) {
      return Optional.empty();
    }
    List<Double> volts = new ArrayList<>();
    for (int i = 0; i < currents; i++) {
      volts.add(measured.points().get(i).volts());
    }
    volts.set(0, (volts.get(0) + measured.points().get(currents).volts()) / 2);
    Contact subject = subject(step, assembly);
    return assembly.net(subject).map(net -> new Junction(subject, net, step.currents(), volts));
  }

  /** The point at which the source of a junction step ran out of voltage. */
  static Optional<Reading.Point> stall(Measurement m) {
    Step step = m.step();
    if (step.kind() != Kind.JUNCTION
        || !(m.reading() instanceof Reading.OverRange over)
        || !conducts(step, over)) {
      return Optional.empty();
    }
    for (int i = 1; i < Math.min(step.currents().size(), over.points().size()); i++) {
      Reading.Point point = over.points().get(i);
      if (point.amps() > step.currents().get(0).value()
          && point.amps() < step.currents().get(i).value()
          && point.volts() >= AT_COMPLIANCE * step.compliance().value()) {
        return Optional.of(point);
      }
    }
    return Optional.empty();
  }

  /** The contact of a step against ground that is not the ground. */
  static Contact subject(Step step, Assembly assembly) {
    return assembly.isGround(step.a()) ? step.b() : step.a();
  }

  /** How much more than the reference's the drop grows from the lowest current to the highest. */
  double growthAbove(Reference.Drop reference) {
    return grown() - grown(reference);
  }

  private double grown() {
    return volts.get(volts.size() - 1) - volts.get(0);
  }

  private static double grown(Reference.Drop reference) {
    return reference.volts().get(reference.volts().size() - 1).value()
        - reference.volts().get(0).value();
  }

  /** The difference between the highest current and the lowest, in ampere. */
  double span() {
    return amps.get(amps.size() - 1).value() - amps.get(0).value();
  }

  /**
   * The series resistance above the reference's that the second difference of the drop shows, in
   * ohm: what grows with the logarithm of the current falls out of it. Empty when the currents are
   * not three.
   */
  Optional<Double> bendAbove(Reference.Drop reference) {
    if (amps.size() != 3) {
      return Optional.empty();
    }
    double bend = volts.get(0) - 2 * volts.get(1) + volts.get(2);
    double usual =
        reference.volts().get(0).value()
            - 2 * reference.volts().get(1).value()
            + reference.volts().get(2).value();
    double current = amps.get(0).value() - 2 * amps.get(1).value() + amps.get(2).value();
    return current > 0 ? Optional.of((bend - usual) / current) : Optional.empty();
  }
}
