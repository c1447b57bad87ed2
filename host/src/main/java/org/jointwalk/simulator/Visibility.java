package org.jointwalk.simulator;

import java.util.Optional;
import org.jointwalk.fixture.Step;

/**
 * How well a fault shows on a fixture, by numbers that no thinking package made.
 *
 * @param deviations the largest change of a reading that the fault causes, in combined standard
 *     deviations of instrument, switches and contacts; beyond 100 the first found and not the
 *     largest
 * @param step the step that changes most; empty when none changes
 */
public record Visibility(double deviations, Optional<Step> step) {

  private static final double SEEN = 8;
  private static final double FAINT = 3;

  /** Whether a fault can be asked of a program that is judged. */
  public enum Sight {
    /** At least 8 standard deviations: it has to be found. */
    SEEN,
    /** From 3 to 8: shown in figures, without a bar to reach. */
    FAINT,
    /** Less than 3. */
    UNSEEN
  }

  /** A fault that changes nothing. */
  static final Visibility NONE = new Visibility(0, Optional.empty());

  public Visibility {
    if (!(deviations >= 0)) {
      throw new IllegalArgumentException("deviations are not negative, not " + deviations);
    }
  }

  /** The class that the deviations put it in. */
  public Sight sight() {
    return deviations >= SEEN ? Sight.SEEN : deviations >= FAINT ? Sight.FAINT : Sight.UNSEEN;
  }

  Visibility orBetter(Visibility other) {
    return other.deviations > deviations ? other : this;
  }
}
