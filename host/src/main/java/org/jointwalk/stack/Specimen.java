package org.jointwalk.stack;

import java.util.List;

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
  }
}
