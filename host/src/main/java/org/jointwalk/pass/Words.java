package org.jointwalk.pass;

import java.util.Locale;

/** Figures as a technician reads them. Stateless. */
final class Words {

  private Words() {}

  static String ohms(double ohms) {
    return String.format(Locale.ROOT, "%.3g ohm", ohms);
  }

  static String seconds(double seconds) {
    return seconds < 1
        ? String.format(Locale.ROOT, "%.0f ms", seconds * 1e3)
        : String.format(Locale.ROOT, "%.1f s", seconds);
  }
}
