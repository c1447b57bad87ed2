package org.jointwalk.stack;

import org.jointwalk.quantity.Ohms;

/** What is wrong with a component at a moment. A component without a condition is sound. */
public sealed interface Condition {

  /** No path: a cracked joint, a torn pad, a broken via, a probe that does not land. */
  record Open() implements Condition {}

  /** A path with too much resistance. */
  record High(Ohms ohms) implements Condition {}

  /**
   * A path that comes and goes.
   *
   * @param ohms resistance while it conducts
   * @param openShare share of clampings in which it does not conduct, from 0 to 1
   */
  record TwoState(Ohms ohms, double openShare) implements Condition {

    public TwoState {
      if (!(openShare >= 0 && openShare <= 1)) {
        throw new IllegalArgumentException("open share must be from 0 to 1, not " + openShare);
      }
    }
  }

  /**
   * A path that drops out again and again while it is clamped.
   *
   * @param ohms resistance while it conducts
   * @param periodSeconds from one dropout to the next, positive
   * @param openSeconds length of a dropout, positive, shorter than the period
   */
  record Intermittent(Ohms ohms, double periodSeconds, double openSeconds) implements Condition {

    public Intermittent {
      if (!(openSeconds > 0) || !(periodSeconds > openSeconds)) {
        throw new IllegalArgumentException(
            "a dropout lasts longer than nothing and shorter than its period, not "
                + openSeconds
                + " s of "
                + periodSeconds
                + " s");
      }
    }
  }

  /** Metal where none should be: a bridge, with its resistance. */
  record Bridged(Ohms ohms) implements Condition {}

  /**
   * A net joined to another net of its board by a failed part.
   *
   * @param to name of the other net
   */
  record Shorted(String to, Ohms ohms) implements Condition {}

  /**
   * A net whose loads are not those of a good board.
   *
   * @param factor by which its load resistances are multiplied, positive
   */
  record Abnormal(double factor) implements Condition {

    public Abnormal {
      if (!(factor > 0)) {
        throw new IllegalArgumentException("factor must be positive, not " + factor);
      }
    }
  }

  /**
   * A rail that still carries a voltage.
   *
   * @param volts open-circuit voltage
   * @param ohms source resistance behind it
   */
  record Charged(double volts, Ohms ohms) implements Condition {}

  /** A hidden part that does not do its work although its nets read normal. */
  record Dead() implements Condition {}
}
