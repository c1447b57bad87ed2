package org.jointwalk.simulator;

import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.stack.Contact;

/** What lies between the stack and a reading: switches, probes and the meter itself. */
interface Instrument {

  /** Turns to the next step. */
  void begin(Step step);

  /** Resistance of a contact's closed switch in ohm; infinite when it does not close. */
  double switchOhms(Contact contact, boolean high);

  /** Resistance of a probe with its contact in ohm; infinite when it did not land. */
  double probeOhms(Contact contact);

  /** What lies between the buses with nothing closed, in siemens. */
  double idleSiemens();

  /** A reading in which the voltage is the answer. */
  Reading.Point volts(Range range, double volts, double amps);

  /** A reading in which the current is the answer. */
  Reading.Point amps(Range range, double volts, double amps);
}
