package org.jointwalk.grade;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.job.Residual;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;

/**
 * Whether a board still carries a voltage. Up to 5 mV may be measured; up to 50 mV is discharged
 * and read again; more than that, and still there under a load of 10 kilohm, is a live board. More
 * than that which collapses under the load is light on a junction or leakage. The figures are
 * common practice, no source. Stateless.
 */
final class Safety {

  static final double CALM_VOLTS = 0.005;
  static final double LIVE_VOLTS = 0.05;

  /** How often a net is discharged before it counts as one that charges itself. */
  static final int TRIES = 3;

  private Safety() {}

  static Optional<String> danger(Assembly assembly, List<Residual> residuals) {
    Map<Contact, List<Residual>> byContact = byContact(residuals);
    for (Map.Entry<Contact, List<Residual>> entry : byContact.entrySet()) {
      Residual last = entry.getValue().get(entry.getValue().size() - 1);
      boolean live = Math.abs(last.volts()) > LIVE_VOLTS && Math.abs(last.loaded()) > CALM_VOLTS;
      boolean rising = entry.getValue().size() >= TRIES && Math.abs(last.loaded()) > CALM_VOLTS;
      if (live || rising) {
        return Optional.of(
            Words.format(
                "%s carries %.2f V%s. Nothing was sourced. Take the battery out, bleed the net "
                    + "through a resistor (never with tweezers), and run the pass again.",
                name(assembly, entry.getKey()),
                last.volts(),
                rising ? " and comes back after each discharge" : ""));
      }
    }
    return Optional.empty();
  }

  static List<String> remarks(Assembly assembly, List<Residual> residuals) {
    List<String> remarks = new ArrayList<>();
    byContact(residuals)
        .forEach(
            (contact, list) -> {
              Residual last = list.get(list.size() - 1);
              if (Math.abs(last.volts()) > LIVE_VOLTS && Math.abs(last.loaded()) <= CALM_VOLTS) {
                remarks.add(
                    Words.format(
                        "%s shows %.2f V that a light load takes away: light or leakage; close the "
                            + "lid",
                        name(assembly, contact), last.volts()));
              }
            });
    return remarks;
  }

  /** The contacts that should be discharged and read again. */
  static List<Contact> uneasy(List<Residual> residuals) {
    List<Contact> uneasy = new ArrayList<>();
    byContact(residuals)
        .forEach(
            (contact, list) -> {
              Residual last = list.get(list.size() - 1);
              if (Math.abs(last.volts()) > CALM_VOLTS
                  && !(Math.abs(last.loaded()) <= CALM_VOLTS)
                  && list.size() < TRIES) {
                uneasy.add(contact);
              }
            });
    return uneasy;
  }

  private static Map<Contact, List<Residual>> byContact(List<Residual> residuals) {
    Map<Contact, List<Residual>> byContact = new LinkedHashMap<>();
    for (Residual residual : residuals) {
      byContact.computeIfAbsent(residual.contact(), k -> new ArrayList<>()).add(residual);
    }
    return byContact;
  }

  private static String name(Assembly assembly, Contact contact) {
    return assembly.net(contact).map(Net::id).map(id -> id.name()).orElse(contact.toString());
  }
}
