package org.jointwalk.spice;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.stack.Contact;

/**
 * Makes ngspice take the steps of a scan one after the other, and readings of what it prints.
 *
 * <p>Resistance and isolation are read in both polarities by a voltage behind a resistance, chosen
 * so that neither the voltage nor the current asked for can be passed. Into a junction the currents
 * are driven in turn, as far as the voltage allowed lets them.
 */
final class Orders {

  /** Less than this share of the current asked for is no reading any more. */
  private static final double LEAST_SHARE = 0.01;

  private static final double METER_OHMS = 1e10;
  private static final double LOAD_OHMS = 10_000;

  private final Deck deck;
  private final Capabilities capabilities;
  private final StringBuilder text = new StringBuilder();

  Orders(Deck deck, Capabilities capabilities) {
    this.deck = deck;
    this.capabilities = capabilities;
  }

  /** The deck with all orders given so far. */
  String deck() {
    // Without quit the exit status is 1 although everything went well.
    return deck.circuit() + ".control\nset numdgt=15\n" + text + "quit 0\n.endc\n.end\n";
  }

  private void line(String format, Object... values) {
    text.append(String.format(Locale.ROOT, format, values)).append('\n');
  }

  /** Adds the orders of a step that the fixture has a range for. */
  void add(int index, Step step) {
    Range range = range(step);
    step.high().forEach(c -> line("alter %s", deck.closing(c, true)));
    step.low().forEach(c -> line("alter %s", deck.closing(c, false)));
    switch (step.kind()) {
      case LOW_LEVEL, NORMAL_LEVEL ->
          reversed(index, step, volts(step, range), step.currents().get(0).value());
      case ISOLATION, ALL_OPEN ->
          reversed(index, step, volts(step, range), range.current().value());
      case RESIDUAL -> quiet(index, step, METER_OHMS);
      case RESIDUAL_LOADED, DISCHARGE -> quiet(index, step, LOAD_OHMS);
      case JUNCTION -> junction(index, step, volts(step, range));
      case CHARGE -> throw new IllegalArgumentException("no step of this kind is taken");
    }
    step.high().forEach(c -> line("alter %s", deck.opening(c, true)));
    step.low().forEach(c -> line("alter %s", deck.opening(c, false)));
  }

  /** Whether there is a way to take a step of this kind. */
  boolean takes(Step step) {
    return step.kind() != Kind.CHARGE && capabilities.range(step.kind()).isPresent();
  }

  private Range range(Step step) {
    return capabilities.range(step.kind()).orElseThrow();
  }

  private static double volts(Step step, Range range) {
    return Math.min(step.compliance().value(), range.compliance().value());
  }

  private void reversed(int index, Step step, double volts, double amps) {
    line("alter rint = %.9g", volts / amps);
    point(index, step, "p", volts);
    point(index, step, "m", -volts);
  }

  private void quiet(int index, Step step, double ohms) {
    line("alter rint = %g", ohms);
    point(index, step, "p", 0);
  }

  private void junction(int index, Step step, double volts) {
    line("alter vs = 0");
    line("alter rint = %g", Deck.APART_OHMS);
    line("alter vtop = %.9g", volts);
    for (int k = 0; k < step.currents().size(); k++) {
      line("alter is = %.9g", step.currents().get(k).value());
      line("op");
      line("let v%dk%d = %s", index, k, sensed(step));
      line("let b%dk%d = i(vback)", index, k);
      line("print v%dk%d b%dk%d", index, k, index, k);
      line("destroy all");
    }
    line("alter is = 0");
    line("alter vtop = 1000");
  }

  private void point(int index, Step step, String name, double volts) {
    line("alter vs = %.9g", volts);
    line("op");
    line("let v%d%s = %s", index, name, sensed(step));
    line("let a%d%s = -i(vs)", index, name);
    line("print v%d%s a%d%s", index, name, index, name);
    line("destroy all");
  }

  /** The voltage at the sense wires, which follow their contact; of a group, at the buses. */
  private String sensed(Step step) {
    Kelvin kelvin = capabilities.kelvin();
    if (!step.isPair() || kelvin == Kelvin.NONE) {
      return "v(fh)";
    }
    Contact a = step.a();
    Contact b = step.b();
    return kelvin == Kelvin.TAIL
        ? String.format(Locale.ROOT, "v(%s)-v(%s)", deck.behind(a), deck.behind(b))
        : String.format(Locale.ROOT, "v(%s)-v(%s)", deck.under(a), deck.under(b));
  }

  /** What a step has read. */
  Reading reading(int index, Step step, Map<String, Double> printed) {
    return switch (step.kind()) {
      case RESIDUAL, RESIDUAL_LOADED, DISCHARGE ->
          measured(index, step, new Reading.Point(value(printed, "v%dp", index), 0));
      case JUNCTION -> junction(index, step, printed);
      case LOW_LEVEL, NORMAL_LEVEL -> resistance(index, step, printed);
      case ISOLATION, ALL_OPEN -> measured(index, step, mean(index, printed));
      case CHARGE -> new Reading.Refused(index, "this fixture measures no capacitance");
    };
  }

  private static Reading measured(int index, Step step, Reading.Point point) {
    return new Reading.Measured(index, Collections.nCopies(step.samples(), point));
  }

  private static Reading resistance(int index, Step step, Map<String, Double> printed) {
    Reading.Point point = mean(index, printed);
    return point.amps() < LEAST_SHARE * step.currents().get(0).value()
        ? new Reading.OverRange(index, List.of(point))
        : measured(index, step, point);
  }

  private static Reading.Point mean(int index, Map<String, Double> printed) {
    return new Reading.Point(
        (value(printed, "v%dp", index) - value(printed, "v%dm", index)) / 2,
        (value(printed, "a%dp", index) - value(printed, "a%dm", index)) / 2);
  }

  private static Reading junction(int index, Step step, Map<String, Double> printed) {
    List<Reading.Point> points = new ArrayList<>();
    boolean over = false;
    for (int k = 0; k < step.currents().size(); k++) {
      double back = value(printed, "b%dk" + k, index);
      over |= back > 0;
      points.add(
          new Reading.Point(
              value(printed, "v%dk" + k, index), step.currents().get(k).value() - back));
    }
    // The first current is repeated last, and nothing drifts here.
    points.add(points.get(0));
    return over ? new Reading.OverRange(index, points) : new Reading.Measured(index, points);
  }

  private static double value(Map<String, Double> printed, String format, int index) {
    String name = String.format(Locale.ROOT, format, index);
    Double value = printed.get(name);
    if (value == null) {
      throw new IllegalStateException("ngspice did not print " + name);
    }
    return value;
  }
}
