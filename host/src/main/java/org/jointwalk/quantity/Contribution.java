package org.jointwalk.quantity;

/**
 * One line of an uncertainty budget.
 *
 * @param source what it comes from, in words a metrologist would use
 * @param u standard uncertainty it causes in the result, in the result's unit, not negative
 * @param dof degrees of freedom, positive; infinite for what is known from elsewhere
 * @param type how it was evaluated
 * @param shape how its values lie
 */
public record Contribution(String source, double u, double dof, Type type, Shape shape) {

  /** How a standard uncertainty was evaluated (JCGM 100:2008, 4.2 and 4.3). */
  public enum Type {
    /** From the scatter of readings. */
    A,
    /** From anything else, such as what the fixture states of itself. */
    B
  }

  public Contribution {
    if (!(u >= 0) || Double.isInfinite(u)) {
      throw new IllegalArgumentException(source + ": u must be finite and not negative, not " + u);
    }
    if (!(dof > 0)) {
      throw new IllegalArgumentException(source + ": dof must be positive, not " + dof);
    }
  }

  /** A bell; evaluated from readings when its degrees of freedom are finite. */
  public Contribution(String source, double u, double dof) {
    this(source, u, dof, Double.isInfinite(dof) ? Type.B : Type.A, Shape.BELL);
  }

  /** A contribution known from elsewhere: infinite degrees of freedom. */
  public static Contribution known(String source, double u) {
    return new Contribution(source, u, Double.POSITIVE_INFINITY);
  }

  /** The same contribution with its effect multiplied by {@code |factor|}. */
  public Contribution times(double factor) {
    return new Contribution(source, Math.abs(factor) * u, dof, type, shape);
  }
}
