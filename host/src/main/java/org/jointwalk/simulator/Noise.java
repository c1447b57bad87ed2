package org.jointwalk.simulator;

import org.jointwalk.files.Names;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.stack.Contact;

/**
 * What the instrument adds to what is there: scale, zero, thermal voltage of the path, white noise
 * and noise that rises towards low frequency. The figures are those of the fixture's ranges. Not
 * thread-safe: it counts readings.
 */
final class Noise {

  /** Of the variance of a voltage reading, what is not white. */
  private static final double OF_FLICKER = 0.25;

  private static final int OCTAVES = 6;

  private final Hardware hardware;
  private final Draw run;
  private long reading;
  private Kind kind = Kind.ALL_OPEN;
  private Draw path;

  /**
   * @param run draw of this run of this seating
   */
  Noise(Hardware hardware, Draw run) {
    this.hardware = hardware;
    this.run = run;
    path = run;
  }

  /** Turns to the next step. */
  void begin(Step step) {
    kind = step.kind();
    path = run.at("thermal").at(Meter.pathOf(step));
    reading++;
  }

  /** The draw of a contact's switch as it closes for this step. */
  Draw closure(Contact contact) {
    return run.at("closure").at(Names.of(contact)).at(reading);
  }

  /** A reading of a voltage, scaled by the range, and of a current. */
  Reading.Point point(Range range, double volts, double amps) {
    double read = volts * (1 + hardware.gain(kind, range)) + hardware.zeroVolts(kind, range, path);
    return next(range, read, amps);
  }

  /** A reading in which the current is the answer. */
  Reading.Point current(Range range, double volts, double amps) {
    return next(range, volts, amps * (1 + hardware.gain(kind, range)));
  }

  private Reading.Point next(Range range, double volts, double amps) {
    Draw draw = run.at(++reading);
    double white = Math.sqrt(1 - OF_FLICKER) * draw.at(0).gaussian();
    double flicker = Math.sqrt(OF_FLICKER) * flicker();
    return new Reading.Point(
        volts + range.noise().value() * (white + flicker),
        amps + range.currentNoise().value() * draw.at(1).gaussian());
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
