package org.jointwalk.drawing;

/**
 * Contrast of two colours as W3C defines it (WCAG 2.1, "relative luminance" and "contrast ratio").
 * Stateless.
 */
final class Contrast {

  private Contrast() {}

  /** From 1 (the same) to 21 (black on white). */
  static double ratio(String a, String b) {
    double one = luminance(a) + 0.05;
    double other = luminance(b) + 0.05;
    return Math.max(one, other) / Math.min(one, other);
  }

  private static double luminance(String colour) {
    int rgb = Integer.parseInt(colour.substring(1), 16);
    return 0.2126 * linear(rgb >> 16 & 255)
        + 0.7152 * linear(rgb >> 8 & 255)
        + 0.0722 * linear(rgb & 255);
  }

  private static double linear(int eightBit) {
    double share = eightBit / 255.0;
    return share <= 0.03928 ? share / 12.92 : Math.pow((share + 0.055) / 1.055, 2.4);
  }
}
