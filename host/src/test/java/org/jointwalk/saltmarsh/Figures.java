package org.jointwalk.saltmarsh;

import java.math.BigDecimal;
import java.math.MathContext;

/** Figures as a parts list or a bench book would print them. Stateless. */
final class Figures {

  private Figures() {}

  /** The value with so many significant digits. */
  static double round(double value, int digits) {
    return new BigDecimal(value).round(new MathContext(digits)).doubleValue();
  }
}
