package org.jointwalk.pass;

import java.util.Locale;
import org.jointwalk.stack.Contact;

/** Figures and contacts as a technician reads them. Stateless. */
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

  /** A pad by its position, an access point by its id. */
  static String name(Contact contact) {
    return contact instanceof Contact.Pad pad ? pad.position() : ((Contact.Point) contact).point();
  }
}
