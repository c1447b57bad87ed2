package org.jointwalk.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Ceilings;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;

/**
 * Makes single steps: the range of the fixture and the ceiling of what is touched, whichever is
 * lower. Immutable.
 */
final class Steps {

  private final Capabilities capabilities;
  private final Ceilings ceilings;

  Steps(Assembly assembly, Capabilities capabilities) {
    this.capabilities = capabilities;
    this.ceilings = new Ceilings(assembly);
  }

  /** The kind by which this fixture reads a small resistance: the lowest level it has. */
  private Kind resistance() {
    return capabilities.range(Kind.LOW_LEVEL).isPresent() ? Kind.LOW_LEVEL : Kind.NORMAL_LEVEL;
  }

  /** Resistance between two contacts of one net. */
  Optional<Step> resistance(Contact a, Contact b) {
    return pair(resistance(), a, b);
  }

  /** A step between two contacts at the largest current allowed. */
  Optional<Step> pair(Kind kind, Contact a, Contact b) {
    return between(kind, List.of(a), List.of(b));
  }

  /**
   * A step between two groups of contacts; empty when the fixture has no such range. A junction is
   * read at those of its currents that the fixture can drive.
   */
  Optional<Step> between(Kind kind, List<Contact> high, List<Contact> low) {
    Optional<Range> range = capabilities.range(kind);
    if (range.isEmpty()) {
      return Optional.empty();
    }
    List<Contact> all = new ArrayList<>(high);
    all.addAll(low);
    Amps current = Amps.min(range.get().current(), ceilings.current(kind, all));
    Volts volts = Volts.min(range.get().compliance(), ceilings.volts(kind, all));
    List<Amps> currents =
        switch (kind) {
          case LOW_LEVEL, NORMAL_LEVEL -> List.of(current);
          case JUNCTION ->
              ceilings.junctionCurrents(all).stream()
                  .filter(a -> a.compareTo(current) <= 0)
                  .toList();
          case ALL_OPEN, RESIDUAL, RESIDUAL_LOADED, DISCHARGE, ISOLATION, CHARGE -> List.of();
        };
    return kind == Kind.JUNCTION && currents.isEmpty()
        ? Optional.empty()
        : Optional.of(new Step(kind, high, low, currents, volts, 1));
  }

  /** The instrument by itself. */
  Optional<Step> allOpen() {
    return capabilities
        .range(Kind.ALL_OPEN)
        .map(r -> new Step(Kind.ALL_OPEN, List.of(), List.of(), List.of(), r.compliance(), 1));
  }
}
