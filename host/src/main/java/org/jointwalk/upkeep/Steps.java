package org.jointwalk.upkeep;

import java.util.List;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Contact;

/**
 * Steps for a fixture with no board in it. Stateless but for the capability record.
 *
 * <p>The ceilings are those for a bare interposer, since whether the fixture is empty is what
 * somebody said: 20 mV and 100 mA, 0.2 V else.
 */
final class Steps {

  private static final double MOST_AMPS = 0.1;
  private static final double LOW_LEVEL_VOLTS = 0.02;
  private static final double MOST_VOLTS = 0.2;

  private final Capabilities able;

  Steps(Capabilities able) {
    this.able = able;
  }

  /** The kind of step that reads small resistances with the least current. */
  Kind small() {
    return able.range(Kind.LOW_LEVEL).isPresent() ? Kind.LOW_LEVEL : Kind.NORMAL_LEVEL;
  }

  boolean can(Kind kind) {
    return able.range(kind).isPresent();
  }

  Step pair(Kind kind, Contact high, Contact low) {
    return pair(kind, high, low, 1, 1);
  }

  /**
   * @param share of the largest current
   */
  Step pair(Kind kind, Contact high, Contact low, int samples, double share) {
    boolean driven = kind == Kind.LOW_LEVEL || kind == Kind.NORMAL_LEVEL;
    return new Step(
        kind,
        List.of(high),
        List.of(low),
        driven ? List.of(new Amps(share * amps(kind))) : List.of(),
        new Volts(volts(kind)),
        samples);
  }

  Step allOpen(int samples) {
    return new Step(
        Kind.ALL_OPEN, List.of(), List.of(), List.of(), new Volts(volts(Kind.ALL_OPEN)), samples);
  }

  double amps(Kind kind) {
    return Math.min(MOST_AMPS, range(kind).current().value());
  }

  double volts(Kind kind) {
    return Math.min(
        kind == Kind.LOW_LEVEL ? LOW_LEVEL_VOLTS : MOST_VOLTS, range(kind).compliance().value());
  }

  Range range(Kind kind) {
    return able.range(kind)
        .orElseThrow(() -> new IllegalArgumentException("the fixture has no range for " + kind));
  }
}
