package org.jointwalk.simulator;

import java.util.List;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.protocol.Extension;
import org.jointwalk.stack.Contact;

/**
 * How a step is read, apart from what it forces.
 *
 * @param high where the voltage of the high side is read
 * @param low where that of the low side is
 * @param enough when there are enough points
 */
record Manner(Sense high, Sense low, Enough enough) {

  /** Where the voltage of a side is read; of several contacts on a bus, always at the bus. */
  sealed interface Sense {

    /** At the sense wires of the forced contact, as far as the fixture has any. */
    record Own() implements Sense {}

    /** At the force wire. */
    record Force() implements Sense {}

    /** At another contact: a tap. */
    record At(Contact contact) implements Sense {}
  }

  /** Says after each point whether a step is over. Of a junction step it is not asked. */
  @FunctionalInterface
  interface Enough {

    /**
     * Whether these points are enough.
     *
     * @param points taken so far, at least one
     * @param over whether the step is over range
     */
    boolean after(List<Reading.Point> points, boolean over);
  }

  /**
   * As many points as the step says, by the rule that a fixture on a line keeps, read at its own
   * sense wires.
   */
  static Manner usual(Step step) {
    return new Manner(
        new Sense.Own(), new Sense.Own(), (points, over) -> Extension.ends(step, points, over));
  }

  /** Whether any voltage is read at a contact that is not forced. */
  boolean taps() {
    return high instanceof Sense.At || low instanceof Sense.At;
  }
}
