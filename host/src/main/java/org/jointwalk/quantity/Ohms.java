package org.jointwalk.quantity;

/**
 * A resistance that is set, limited or modelled, never one that was measured.
 *
 * @param value in ohm, finite and not negative
 */
public record Ohms(double value) implements Comparable<Ohms> {

  public Ohms {
    if (!(value >= 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException("ohms must be finite and not negative, not " + value);
    }
  }

  /** The larger of the two. */
  public static Ohms max(Ohms a, Ohms b) {
    return a.value >= b.value ? a : b;
  }

  @Override
  public int compareTo(Ohms other) {
    return Double.compare(value, other.value);
  }
}
