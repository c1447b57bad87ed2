package org.jointwalk.quantity;

/**
 * A current that is set, limited or modelled.
 *
 * @param value in ampere, finite; the sign is the direction
 */
public record Amps(double value) implements Comparable<Amps> {

  public Amps {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("amps must be finite, not " + value);
    }
  }

  /** The smaller of the two. */
  public static Amps min(Amps a, Amps b) {
    return a.value <= b.value ? a : b;
  }

  @Override
  public int compareTo(Amps other) {
    return Double.compare(value, other.value);
  }
}
