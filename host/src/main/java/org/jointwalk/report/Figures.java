package org.jointwalk.report;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.jointwalk.quantity.Estimate;

/** Numbers with units and no more digits than they deserve. Stateless. */
final class Figures {

  private Figures() {}

  /** A resistance to two digits. */
  static String ohms(double value) {
    Unit unit = Unit.of(value);
    BigDecimal two = new BigDecimal(value / unit.ohms).round(new MathContext(2));
    return plain(two.stripTrailingZeros()) + " " + unit.name;
  }

  /**
   * A resistance with twice its standard uncertainty, which decides the digits.
   *
   * @param plusMinus how give-or-take is written
   */
  static String ohms(Estimate estimate, String plusMinus) {
    Unit unit = Unit.of(estimate.value());
    double twice = 2 * estimate.u() / unit.ohms;
    if (!(twice > 0)) {
      return ohms(estimate.value());
    }
    // Two digits while the first is a one, else one; more would say what is not known.
    BigDecimal u = new BigDecimal(twice).round(new MathContext(1, RoundingMode.HALF_UP));
    if (u.unscaledValue().intValueExact() == 1) {
      u = new BigDecimal(twice).round(new MathContext(2, RoundingMode.HALF_UP));
    }
    BigDecimal value =
        new BigDecimal(estimate.value() / unit.ohms).setScale(u.scale(), RoundingMode.HALF_UP);
    return plain(value) + " " + unit.name + " " + plusMinus + " " + plain(u);
  }

  private static String plain(BigDecimal number) {
    return number.toPlainString();
  }

  private enum Unit {
    MILLI("mohm", 1e-3),
    ONE("ohm", 1),
    KILO("kohm", 1e3),
    MEGA("Mohm", 1e6);

    private final String name;
    private final double ohms;

    Unit(String name, double ohms) {
      this.name = name;
      this.ohms = ohms;
    }

    private static Unit of(double value) {
      double size = Math.abs(value);
      if (size >= 1e6) {
        return MEGA;
      }
      if (size >= 1e3) {
        return KILO;
      }
      return size >= 0.01 || size == 0 ? ONE : MILLI;
    }
  }
}
