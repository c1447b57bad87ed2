package org.jointwalk.grade;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.List;
import java.util.Locale;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Net;

/** Evidence and rule in one sentence each. Stateless. */
final class Words {

  private static final int DIGITS = 3;

  /** An uncertainty is told with two digits (JCGM 100:2008, 7.2.6), its value to the same place. */
  private static final int DIGITS_OF_U = 2;

  private static final int MOST_DIGITS = 6;

  private enum Unit {
    MOHM("Mohm", 6),
    KOHM("kohm", 3),
    OHM("ohm", 0),
    MILLIOHM("mohm", -3),
    MICROOHM("uohm", -6);

    private final String symbol;
    private final int exponent;

    Unit(String symbol, int exponent) {
      this.symbol = symbol;
      this.exponent = exponent;
    }

    /** The unit in which a resistance has one to three digits before the point. */
    static Unit of(BigDecimal ohms) {
      if (ohms.signum() == 0) {
        return OHM;
      }
      int exponent = ohms.precision() - ohms.scale() - 1;
      for (Unit unit : values()) {
        if (exponent >= unit.exponent) {
          return unit;
        }
      }
      return MICROOHM;
    }

    String text(BigDecimal ohms) {
      return ohms.movePointLeft(exponent).toPlainString() + " " + symbol;
    }
  }

  private Words() {}

  /** A resistance with three digits. */
  static String ohms(double ohms) {
    return ohms(ohms, DIGITS);
  }

  private static String ohms(double ohms, int digits) {
    if (ohms == 0) {
      return "0 ohm";
    }
    BigDecimal rounded = new BigDecimal(ohms).round(new MathContext(digits));
    // Digits that rounding has added, as in 999.6 to 1000, are taken off again.
    BigDecimal exact = rounded.setScale(digits - rounded.precision() + rounded.scale());
    return Unit.of(exact).text(exact);
  }

  /** A measured resistance, to the second digit of its uncertainty. */
  static String estimate(Estimate e) {
    return value(e) + " with standard uncertainty " + ohms(e.u(), DIGITS_OF_U);
  }

  private static String value(Estimate e) {
    if (e.u() == 0) {
      return ohms(e.value());
    }
    BigDecimal u = new BigDecimal(e.u()).round(new MathContext(DIGITS_OF_U));
    BigDecimal value = new BigDecimal(e.value());
    int place = u.scale();
    int digits = value.precision() - value.scale() + place;
    BigDecimal rounded =
        digits > MOST_DIGITS
            ? value.round(new MathContext(MOST_DIGITS))
            : value.setScale(place, RoundingMode.HALF_EVEN);
    return (rounded.signum() == 0 ? Unit.of(u) : Unit.of(rounded)).text(rounded);
  }

  static String format(String pattern, Object... values) {
    return String.format(Locale.ROOT, pattern, values);
  }

  /** A voltage to the hundredth of a volt, a small one in millivolt. */
  static String volts(double volts) {
    return Math.abs(volts) < 0.1 ? format("%.0f mV", volts * 1e3) : format("%.2f V", volts);
  }

  static String seatings(int n) {
    return n == 1 ? "one seating" : n + " seatings";
  }

  static String shorted(Net net, Net other, Estimate ohms, double expected, List<String> places) {
    String usual =
        expected > 0 ? "a good board has about " + ohms(1 / expected) : "a good board has no path";
    String where =
        places.isEmpty()
            ? "a failed part, or metal where neither has a pad beside the other"
            : places.size() == 1
                ? "a failed part, or solder at " + places.get(0)
                : "a failed part, or solder at one of " + places.size() + " places";
    return format(
        "%s reads %s to %s where %s: %s",
        net.id().name(), estimate(ohms), other.id().name(), usual, where);
  }
}
