package org.jointwalk.grade;

import java.util.List;
import java.util.Locale;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Net;

/** Evidence and rule in one sentence each. Stateless. */
final class Words {

  private Words() {}

  /** A resistance with a sensible number of digits. */
  static String ohms(double ohms) {
    double size = Math.abs(ohms);
    if (size >= 1e6) {
      return format("%.3g Mohm", ohms / 1e6);
    }
    if (size >= 1e3) {
      return format("%.3g kohm", ohms / 1e3);
    }
    if (size >= 1) {
      return format("%.3g ohm", ohms);
    }
    return format("%.0f mohm", ohms * 1e3);
  }

  static String estimate(Estimate e) {
    return ohms(e.value()) + " with standard uncertainty " + ohms(e.u());
  }

  static String format(String pattern, Object... values) {
    return String.format(Locale.ROOT, pattern, values);
  }

  static String seatings(int n) {
    return n == 1 ? "one seating" : n + " seatings";
  }

  static String shorted(Net net, Net other, Estimate ohms, double expected, List<String> places) {
    String usual =
        expected > 0 ? "a good board has about " + ohms(1 / expected) : "a good board has no path";
    String where =
        places.isEmpty()
            ? "a failed part"
            : places.size() == 1
                ? "a failed part, or solder at " + places.get(0)
                : "a failed part, or solder at one of " + places.size() + " places";
    return format(
        "%s reads %s to %s where %s: %s",
        net.id().name(), estimate(ohms), other.id().name(), usual, where);
  }
}
