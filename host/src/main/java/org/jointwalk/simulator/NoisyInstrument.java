package org.jointwalk.simulator;

import java.util.Optional;
import org.jointwalk.files.Names;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Specimen;

/**
 * What the instrument adds to what is there: scale, zero, thermal voltage of the path, white noise
 * and noise that rises towards low frequency. The figures are those of the fixture's ranges. Not
 * thread-safe: it counts readings.
 */
final class NoisyInstrument implements Instrument {

  /** Of the variance of a voltage reading, what is not white. */
  private static final double OF_FLICKER = 0.25;

  private static final int OCTAVES = 6;

  private final Hardware hardware;
  private final Seat seat;
  private final Draw run;
  private Optional<Step> closed = Optional.empty();
  private long reading;
  private int since;
  private Kind kind = Kind.ALL_OPEN;
  private Draw path;

  /**
   * @param run draw of this run of this seating
   */
  NoisyInstrument(Hardware hardware, Seat seat, Draw run) {
    this.hardware = hardware;
    this.seat = seat;
    this.run = run;
    path = run;
  }

  @Override
  public void begin(Step step) {
    kind = step.kind();
    path = run.at("thermal").at(pathOf(step));
    closed = Optional.of(step);
    since = 0;
    reading++;
  }

  private static String pathOf(Step step) {
    return step.isPair() ? Names.of(step.a()) + " " + Names.of(step.b()) : step.kind().name();
  }

  @Override
  public double switchOhms(Contact contact, boolean high) {
    if (hardware.isStuckOpen(contact, high ? Specimen.Pole.HIGH : Specimen.Pole.LOW)) {
      return Double.POSITIVE_INFINITY;
    }
    return hardware.switchOhms(contact, high, run.at("closure").at(Names.of(contact)).at(reading));
  }

  @Override
  public double probeOhms(Contact contact) {
    return seat.ohms(contact);
  }

  @Override
  public double idleSiemens() {
    return hardware.idleSiemens();
  }

  @Override
  public Reading.Point volts(Range range, double volts, double amps) {
    double read = volts * (1 + hardware.gain(kind, range)) + hardware.zeroVolts(kind, range, path);
    return next(range, read, amps);
  }

  @Override
  public Reading.Point amps(Range range, double volts, double amps) {
    return next(range, volts, amps * (1 + hardware.gain(kind, range)));
  }

  private Reading.Point next(Range range, double volts, double amps) {
    Draw draw = run.at(++reading);
    since++;
    double settled = settled(range, volts);
    double white = Math.sqrt(1 - OF_FLICKER) * draw.at(0).gaussian();
    double flicker = Math.sqrt(OF_FLICKER) * flicker();
    return new Reading.Point(
        settled + hardware.noise() * range.noise().value() * (white + flicker),
        amps + hardware.noise() * range.currentNoise().value() * draw.at(1).gaussian());
  }

  /** What is there of a voltage that creeps up on a slow way, or falls on an open sense wire. */
  private double settled(Range range, double volts) {
    if (isSenseOpen()) {
      // The input of the meter is drawn to its supply, so that a wire that is off is seen.
      return range.compliance().value();
    }
    double tau = hardware.settling();
    return tau > 0 ? volts * -StrictMath.expm1(-since * range.seconds() / tau) : volts;
  }

  private boolean isSenseOpen() {
    boolean senses = hardware.capabilities().kelvin() != Kelvin.NONE;
    return senses
        && closed
            .filter(Step::isPair)
            .map(
                step ->
                    hardware.isStuckOpen(step.a(), Specimen.Pole.SENSE_HIGH)
                        || hardware.isStuckOpen(step.b(), Specimen.Pole.SENSE_LOW))
            .orElse(false);
  }

  /** A sum of steps that hold for one, two, four, ... readings falls off about as 1/f. */
  private double flicker() {
    double sum = 0;
    for (int octave = 0; octave < OCTAVES; octave++) {
      sum += run.at("flicker").at(octave).at(reading >> octave).gaussian();
    }
    return sum / Math.sqrt(OCTAVES);
  }
}
