package org.jointwalk.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Ceilings;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;

/**
 * Makes single steps: the range of the fixture and the ceiling of what is touched, whichever is
 * lower. Immutable.
 */
final class Steps {

  /** Readings of a second look: enough that their scatter shows a contact that is not still. */
  private static final int SECOND_LOOK = 4;

  private final Assembly assembly;
  private final Capabilities capabilities;
  private final Ceilings ceilings;
  private final Patience patience;

  Steps(Assembly assembly, Capabilities capabilities) {
    this.assembly = assembly;
    this.capabilities = capabilities;
    this.patience = new Patience(capabilities);
    this.ceilings = new Ceilings(assembly);
  }

  /** Resistance between two contacts of one net. */
  Optional<Step> resistance(Contact a, Contact b) {
    return pair(capabilities.gentlest(), a, b)
        .map(
            step ->
                new Step(
                    step.kind(),
                    step.high(),
                    step.low(),
                    step.currents(),
                    step.compliance(),
                    step.samples(),
                    limit(a, b).flatMap(limit -> patience.extend(step, limit))));
  }

  /** The same for a pair that is to be looked at closely. */
  Optional<Step> resistanceAgain(Contact a, Contact b) {
    return resistance(a, b).map(step -> step.withSamples(SECOND_LOOK));
  }

  /** What a sum of two paths may be before one of them may lie above its limit. */
  private Optional<Ohms> limit(Contact a, Contact b) {
    return Stream.of(a, b)
        .filter(Contact.Pad.class::isInstance)
        .map(c -> assembly.limit(((Contact.Pad) c).position()))
        .min(Comparator.naturalOrder());
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
