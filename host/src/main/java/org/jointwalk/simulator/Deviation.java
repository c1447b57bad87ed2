package org.jointwalk.simulator;

import java.util.List;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;

/**
 * How far two noiseless readings of one step lie apart, in combined standard deviations of one
 * reading and of the good parts that it passes. Where a resistance left the range the currents are
 * compared, which is comparing conductance; two readings out of range tell nothing. The spread of
 * junctions is not counted, since three currents tell a resistance from another drop. Immutable.
 */
final class Deviation {

  private final Capabilities capabilities;
  private final double wires;

  Deviation(Capabilities capabilities) {
    this.capabilities = capabilities;
    double path = capabilities.kelvin().readsPath() ? capabilities.path().sd().value() : 0;
    double contact = capabilities.kelvin().readsContact() ? capabilities.probes().sd().value() : 0;
    wires = Math.sqrt(2) * Math.hypot(path, contact);
  }

  /**
   * @param partsOhms standard deviation of the resistance between the contacts over stacks with
   *     good parts of other values
   */
  double between(Step step, Reading without, Reading with, double partsOhms) {
    if (!(without instanceof Reading.Measured) && !(with instanceof Reading.Measured)) {
      return 0;
    }
    Range range = capabilities.range(step.kind()).orElseThrow();
    List<Reading.Point> before = points(without);
    List<Reading.Point> after = points(with);
    double most = 0;
    for (int i = 0; i < Math.min(before.size(), after.size()); i++) {
      most = Math.max(most, between(step, range, before.get(i), after.get(i), partsOhms));
    }
    return most;
  }

  private static List<Reading.Point> points(Reading reading) {
    if (reading instanceof Reading.Measured measured) {
      return measured.points();
    }
    return reading instanceof Reading.OverRange over ? over.points() : List.of();
  }

  private double between(
      Step step, Range range, Reading.Point before, Reading.Point after, double partsOhms) {
    double loop = Math.hypot(wires, partsOhms);
    double source =
        step.currents().isEmpty() ? 0 : step.compliance().value() / step.currents().get(0).value();
    return switch (step.kind()) {
      case LOW_LEVEL, NORMAL_LEVEL ->
          Math.max(byOhms(range, loop, before, after), byAmps(range, source, loop, before, after));
      case ISOLATION, CHARGE, ALL_OPEN -> byAmps(range, source, loop, before, after);
      case JUNCTION -> byVolts(range, source, before, after);
      case RESIDUAL, RESIDUAL_LOADED, DISCHARGE -> byVolts(range, source, before, after);
    };
  }

  private double byOhms(Range range, double loop, Reading.Point before, Reading.Point after) {
    if (before.amps() <= 0 || after.amps() <= 0) {
      return 0;
    }
    double change = Math.abs(after.volts() / after.amps() - before.volts() / before.amps());
    return ratio(change, Math.max(ohmsSd(range, loop, before), ohmsSd(range, loop, after)));
  }

  private double ohmsSd(Range range, double loop, Reading.Point at) {
    double ohms = at.volts() / at.amps();
    double noise =
        Math.hypot(range.noise().value(), range.currentNoise().value() * ohms) / at.amps();
    double zero = range.offset().value() / at.amps();
    return Math.hypot(Math.hypot(noise, zero), Math.hypot(range.gain() * ohms, loop));
  }

  private double byAmps(
      Range range, double source, double loop, Reading.Point before, Reading.Point after) {
    return ratio(
        Math.abs(after.amps() - before.amps()),
        Math.max(ampsSd(range, source, loop, before), ampsSd(range, source, loop, after)));
  }

  private double ampsSd(Range range, double source, double loop, Reading.Point at) {
    double ohms = at.amps() > 0 ? source + at.volts() / at.amps() : Double.POSITIVE_INFINITY;
    double relative = Math.hypot(range.gain(), loop / ohms);
    return Math.hypot(range.currentNoise().value(), relative * at.amps());
  }

  private double byVolts(Range range, double source, Reading.Point before, Reading.Point after) {
    if (Math.abs(after.amps() - before.amps()) > 1e-3 * Math.abs(before.amps() + after.amps())) {
      return byAmps(range, source, wires, before, after);
    }
    return ratio(
        Math.abs(after.volts() - before.volts()),
        Math.max(voltsSd(range, before), voltsSd(range, after)));
  }

  private double voltsSd(Range range, Reading.Point at) {
    double own = Math.hypot(range.noise().value(), range.offset().value());
    return Math.hypot(own, Math.hypot(range.gain() * at.volts(), wires * at.amps()));
  }

  private static double ratio(double change, double sd) {
    return change == 0 ? 0 : change / sd;
  }
}
