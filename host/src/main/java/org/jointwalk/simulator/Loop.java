package org.jointwalk.simulator;

import java.util.Optional;
import org.jointwalk.fixture.Step;

/**
 * What the source sees.
 *
 * @param closed false when a switch or probe does not conduct
 * @param high switch and probe of the high side
 * @param low switch and probe of the low side
 * @param farads between the nets behind the contacts
 * @param strays the two contacts, where the switches are part of the circuit
 */
record Loop(
    boolean closed, int a, int b, Lead high, Lead low, double farads, Optional<Step> strays) {

  static final Loop OPEN = new Loop(false, 0, 0, Lead.NONE, Lead.NONE, 0);

  /** A loop whose switches are no part of the circuit. */
  Loop(boolean closed, int a, int b, Lead high, Lead low, double farads) {
    this(closed, a, b, high, low, farads, Optional.empty());
  }

  double pathOhms() {
    return high.switchOhms() + low.switchOhms();
  }

  double contactOhms() {
    return high.probeOhms() + low.probeOhms();
  }

  double series() {
    return pathOhms() + contactOhms();
  }

  /** The way from a bus to a probe's tip. */
  record Lead(double switchOhms, double probeOhms) {

    static final Lead NONE = new Lead(0, 0);
  }
}
