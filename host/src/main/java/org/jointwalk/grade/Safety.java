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
 * than that which collapses under the load is light on a junction or leakage. A voltage that was
 * never read under load counts as if the load left it as it is. The figures are common practice, no
 * source. Stateless.
 */
final class Safety {

  static final double CALM_VOLTS = 0.005;
  static final double LIVE_VOLTS = 0.05;

  /** How often a net is discharged before it counts as one that charges itself. */
  static final int TRIES = 3;

  private Safety() {}

  static Optional<String> danger(Assembly assembly, List<Residual> residuals) {
    for (Map.Entry<Contact, List<Residual>> entry : byContact(residuals).entrySet()) {
      Residual last = last(entry.getValue());
      boolean live = Math.abs(last.volts()) > LIVE_VOLTS && Math.abs(last.loaded()) > CALM_VOLTS;
      boolean rising = entry.getValue().size() >= TRIES && !isCalm(last);
      if (live || rising) {
        return Optional.of(
            Words.format(
                "%s carries %s%s. Nothing is sourced into it. Take the battery out, bleed the net "
                    + "through a resistor (never with tweezers), and run the pass again.",
                name(assembly, entry.getKey()),
                Words.volts(last.volts()),
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
              Residual last = last(list);
              if (Math.abs(last.volts()) > LIVE_VOLTS && isCalm(last)) {
                remarks.add(
                    Words.format(
                        "%s shows %s that a light load takes away: light or leakage; close the lid",
                        name(assembly, contact), Words.volts(last.volts())));
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
              if (!isCalm(last(list)) && list.size() < TRIES) {
                uneasy.add(contact);
              }
            });
    return uneasy;
  }

  /** Whether so little is there, or is left under a load, that it may be measured. */
  private static boolean isCalm(Residual residual) {
    return Math.abs(residual.volts()) <= CALM_VOLTS || Math.abs(residual.loaded()) <= CALM_VOLTS;
  }

  private static Residual last(List<Residual> list) {
    return list.get(list.size() - 1);
  }

  /** What each contact read in the last seating in which it was read. */
  private static Map<Contact, List<Residual>> byContact(List<Residual> residuals) {
    Map<Contact, List<Residual>> byContact = new LinkedHashMap<>();
    for (Residual residual : residuals) {
      List<Residual> list = byContact.computeIfAbsent(residual.contact(), k -> new ArrayList<>());
      if (!list.isEmpty() && last(list).seating() != residual.seating()) {
        list.clear();
      }
      list.add(residual);
    }
    return byContact;
  }

  private static String name(Assembly assembly, Contact contact) {
    return assembly.net(contact).map(Net::id).map(id -> id.name()).orElse(contact.toString());
  }
}
