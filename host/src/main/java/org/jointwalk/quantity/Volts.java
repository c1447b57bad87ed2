package org.jointwalk.quantity;

/**
 * A voltage that is set, limited or modelled.
 *
 * @param value in volt, finite; the sign is the polarity
 */
public record Volts(double value) implements Comparable<Volts> {

  public Volts {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("volts must be finite, not " + value);
    }
  }

  /** The smaller of the two. */
  public static Volts min(Volts a, Volts b) {
    return a.value <= b.value ? a : b;
  }

  @Override
  public int compareTo(Volts other) {
    return Double.compare(value, other.value);
  }
}
