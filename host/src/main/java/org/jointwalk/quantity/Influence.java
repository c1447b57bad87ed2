package org.jointwalk.quantity;

/**
 * What one thing that is not known does to one reading. The same thing acts on several readings at
 * once, a scale on all of a range and a switch on all that pass it; there its effects add with
 * their signs, not in quadrature (JCGM 100:2008, 5.2.2).
 *
 * @param source what kind of thing it is; influences of one source make one line of a budget
 * @param of which thing it is; equal for two readings when they share it
 * @param effect of one standard deviation of it on the reading, with its sign, in the reading's
 *     unit
 * @param dof as of a {@link Contribution}
 * @param type as of a {@link Contribution}
 * @param shape as of a {@link Contribution}
 */
public record Influence(
    String source, Object of, double effect, double dof, Contribution.Type type, Shape shape) {

  /** A bell known from elsewhere. */
  public static Influence known(String source, Object of, double effect) {
    return new Influence(
        source, of, effect, Double.POSITIVE_INFINITY, Contribution.Type.B, Shape.BELL);
  }
}
