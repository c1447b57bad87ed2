package org.jointwalk.simulator;

import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.stack.Contact;

/** An instrument without noise, with typical switches and typical probes. Immutable. */
final class PlainInstrument implements Instrument {

  private final Capabilities capabilities;

  PlainInstrument(Capabilities capabilities) {
    this.capabilities = capabilities;
  }

  @Override
  public void begin(Step step) {
    // Every step finds it the same.
  }

  @Override
  public double switchOhms(Contact contact, boolean high) {
    return (high ? capabilities.path().highOhms() : capabilities.path().lowOhms()).value();
  }

  @Override
  public double probeOhms(Contact contact) {
    return capabilities.probes().typical().value();
  }

  @Override
  public double idleSiemens() {
    return 0;
  }

  @Override
  public Reading.Point volts(Range range, double volts, double amps) {
    return new Reading.Point(volts, amps);
  }

  @Override
  public Reading.Point amps(Range range, double volts, double amps) {
    return new Reading.Point(volts, amps);
  }
}
