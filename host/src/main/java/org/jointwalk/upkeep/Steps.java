package org.jointwalk.upkeep;

import java.util.List;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Ceilings;
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

  private final Capabilities able;

  Steps(Capabilities able) {
    this.able = able;
  }

  Kind gentlest() {
    return able.gentlest();
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
    return new Step(
        kind,
        List.of(high),
        List.of(low),
        kind.isResistance() ? List.of(new Amps(share * amps(kind))) : List.of(),
        new Volts(volts(kind)),
        samples);
  }

  Step allOpen(int samples) {
    return new Step(
        Kind.ALL_OPEN, List.of(), List.of(), List.of(), new Volts(volts(Kind.ALL_OPEN)), samples);
  }

  double amps(Kind kind) {
    return Math.min(Ceilings.MOST.value(), range(kind).current().value());
  }

  double volts(Kind kind) {
    Volts most = kind == Kind.LOW_LEVEL ? Ceilings.LOW_LEVEL : Ceilings.NORMAL;
    return Volts.min(most, range(kind).compliance()).value();
  }

  Range range(Kind kind) {
    return able.range(kind)
        .orElseThrow(() -> new IllegalArgumentException("the fixture has no range for " + kind));
  }
}
