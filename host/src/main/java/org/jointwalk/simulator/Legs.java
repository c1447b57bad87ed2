package org.jointwalk.simulator;

import java.util.Optional;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;

/**
 * Single readings of a circuit, as a converter gives them to the firmware that makes points of
 * them. Of a pattern of four, what {@link Range} says of the mean is shared out: noise is twice as
 * large in one leg, and what reversal leaves turns with the source. Not thread-safe.
 */
final class Legs {

  private static final double NOISE_OF_A_LEG = 2;

  /** Of a kind for which the fixture map has no range: read without error. */
  private static final Range UNKNOWN =
      new Range(new Amps(0.1), new Volts(5), 0, new Volts(0), new Volts(0), new Amps(0), 1e-3);

  private final Capabilities capabilities;
  private final Terminals terminals;
  private final Instrument instrument;
  private Optional<Step> closed = Optional.empty();
  private Loop loop = Loop.OPEN;
  private double charged;

  Legs(Capabilities capabilities, Terminals terminals, Instrument instrument) {
    this.capabilities = capabilities;
    this.terminals = terminals;
    this.instrument = instrument;
  }

  /** Closes the switches of a step, which opens those of the last. */
  void close(Step step) {
    open();
    instrument.begin(step);
    loop = step.kind() == Kind.ALL_OPEN ? Loop.OPEN : terminals.connect(step);
    closed = Optional.of(step);
  }

  /** Opens every switch. */
  void open() {
    closed.ifPresent(terminals::disconnect);
    closed = Optional.empty();
    loop = Loop.OPEN;
    charged = 0;
  }

  /**
   * A reading now.
   *
   * @param seconds over which the current is averaged, 0 for a short reading
   */
  Reading.Point read(Kind kind, Source source, double seconds, Manner manner) {
    Range range = capabilities.range(kind).orElse(UNKNOWN);
    double sign = source.plus() ? 1 : -1;
    Reading.Point point =
        switch (source.mode()) {
          case OFF -> voltage(range, 0);
          case LOAD, DRAIN -> voltage(range, Terminals.LOAD_SIEMENS);
          case PROBE -> between(source);
          case CURRENT ->
              kind == Kind.JUNCTION
                  ? junction(range, source, manner)
                  : resistance(leg(range), source, manner);
          case VOLTAGE -> driven(kind, range, source, seconds);
        };
    return new Reading.Point(sign * point.volts(), sign * point.amps());
  }

  private static Range leg(Range range) {
    return new Range(
        range.current(),
        range.compliance(),
        range.gain(),
        range.offset(),
        new Volts(NOISE_OF_A_LEG * range.noise().value()),
        new Amps(NOISE_OF_A_LEG * range.currentNoise().value()),
        range.seconds());
  }

  private Reading.Point voltage(Range range, double loadSiemens) {
    double volts = terminals.idle(loop, loadSiemens);
    return new Reading.Point(instrument.volts(range, volts, 0).volts(), 0);
  }

  private Reading.Point between(Source source) {
    double siemens = instrument.idleSiemens();
    double volts = Math.min(Math.abs(source.level()), source.limit() / siemens);
    return new Reading.Point(volts, volts * siemens);
  }

  private Reading.Point resistance(Range range, Source source, Manner manner) {
    double wanted = Math.min(range.current().value(), Math.abs(source.level()));
    double compliance = Math.min(range.compliance().value(), source.limit());
    double inside = compliance / wanted;
    Solver.Flow flow =
        terminals.settled(
            loop,
            terminals.polar(loop, wanted, compliance, inside, source.plus()),
            wanted,
            inside,
            range.seconds());
    double read = terminals.sensed(loop, flow.volts(), flow.amps(), manner);
    return instrument.volts(range, read, flow.amps());
  }

  private Reading.Point junction(Range range, Source source, Manner manner) {
    double compliance = Math.min(range.compliance().value(), source.limit());
    Solver.Flow flow = terminals.held(loop, Math.abs(source.level()), compliance, source.plus());
    charged = Terminals.charged(loop, charged, flow, range.seconds());
    double read = terminals.sensed(loop, charged, flow.amps(), manner);
    return instrument.volts(range, read, flow.amps());
  }

  private Reading.Point driven(Kind kind, Range range, Source source, double seconds) {
    double volts = Math.min(range.compliance().value(), Math.abs(source.level()));
    if (kind == Kind.ALL_OPEN) {
      Solver.Flow flow = terminals.allOpen(volts, range);
      return instrument.volts(range, flow.volts(), flow.amps());
    }
    if (kind == Kind.CHARGE) {
      double most = Math.min(range.current().value(), source.limit());
      Solver.Flow flow =
          terminals.charging(loop, volts, most, seconds > 0 ? seconds : range.seconds());
      return instrument.amps(range, flow.volts(), flow.amps());
    }
    Solver.Flow flow =
        terminals.leaking(loop, terminals.polar(loop, source.limit(), volts, 0, source.plus()));
    return instrument.amps(leg(range), flow.volts(), flow.amps());
  }
}
