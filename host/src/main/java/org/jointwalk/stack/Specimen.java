package org.jointwalk.stack;

import java.util.List;
import org.jointwalk.quantity.Ohms;

/**
 * A simulated stack: what is wrong with it when it comes in, what goes wrong later, and what is
 * wrong with the fixture that it is clamped in.
 *
 * @param variant name of the interposer variant inside
 * @param seed of everything that is drawn: good joints, dies, contacts, noise
 * @param defects when it comes in
 * @param outcomes what recorded actions bring about beyond what they always do
 * @param troubles of the fixture and of clamping
 */
public record Specimen(
    String variant, long seed, Defects defects, List<Outcome> outcomes, List<Trouble> troubles) {

  public Specimen {
    outcomes = List.copyOf(outcomes);
    troubles = List.copyOf(troubles);
  }

  /**
   * What an action brings about.
   *
   * @param action number of the action in the job, from 1
   * @param adds faults that it causes
   * @param cures components that are sound afterwards
   */
  public record Outcome(int action, Defects adds, List<Component> cures) {

    public Outcome {
      cures = List.copyOf(cures);
      if (action < 1) {
        throw new IllegalArgumentException("actions are counted from 1, not " + action);
      }
    }
  }

  /** Something about the fixture or the clamping that is not as it should be. */
  public sealed interface Trouble {

    /** The switch of a contact never closes. */
    record StuckOpen(Contact contact) implements Trouble {}

    /** The switch of a contact never opens. */
    record StuckClosed(Contact contact) implements Trouble {}

    /** A clamping is tilted: probes along one edge do not land. Counted from 1. */
    record Tilted(int seating) implements Trouble {}

    /** A probe does not land in one clamping, counted from 1. */
    record Missed(Contact contact, int seating) implements Trouble {}

    /** Another set-up is in the fixture than the job says. */
    record Inside(String setUp) implements Trouble {}

    /** The relay between a contact and one bus never closes. */
    record RelayOpen(Contact contact, Pole pole) implements Trouble {}

    /** The relay between a contact and one bus never opens. */
    record RelayClosed(Contact contact, Pole pole) implements Trouble {}

    /** The relay between a contact and one bus conducts while it is open. */
    record Leaky(Contact contact, Pole pole, Ohms ohms) implements Trouble {}

    /** Everything reads too much by this fraction, or too little by a negative one. */
    record Scale(double fraction) implements Trouble {}

    /** Readings are noisier by this factor. */
    record Noisy(double factor) implements Trouble {

      public Noisy {
        if (!(factor >= 1)) {
          throw new IllegalArgumentException("noise grows by a factor from 1 up, not " + factor);
        }
      }
    }

    /** A voltage settles with this time constant after a relay has closed. */
    record Slow(double seconds) implements Trouble {

      public Slow {
        if (!(seconds > 0)) {
          throw new IllegalArgumentException("a time constant is positive, not " + seconds);
        }
      }
    }

    /** The lid's counter does not move. */
    record DeadLid() implements Trouble {}
  }

  /** The bus at the other side of a relay. */
  public enum Pole {
    HIGH,
    LOW,
    SENSE_HIGH,
    SENSE_LOW;

    /** Whether it is one of the two high buses. */
    public boolean isHigh() {
      return this == HIGH || this == SENSE_HIGH;
    }

    /** Whether it carries no current but that of the meter. */
    public boolean isSense() {
      return this == SENSE_HIGH || this == SENSE_LOW;
    }
  }
}
