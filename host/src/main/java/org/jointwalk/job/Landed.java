package org.jointwalk.job;

import java.util.Map;
import java.util.Set;
import org.jointwalk.stack.Contact;

/**
 * What one pass shows of the probes that it used.
 *
 * @param pressings how often the plates were pressed in it
 * @param ohms resistance of each probe with its path in its first seating, over the middle one of
 *     the pass; positive, and empty where the fixture does not read its contacts
 * @param landings how often each probe was seen to conduct
 * @param missed how often each probe was seen not to land, although its pad has a path
 * @param used every probe that it read, with or without a result
 */
public record Landed(
    int pressings,
    Map<Contact, Double> ohms,
    Map<Contact, Integer> landings,
    Map<Contact, Integer> missed,
    Set<Contact> used) {

  public Landed {
    ohms = Map.copyOf(ohms);
    landings = Map.copyOf(landings);
    missed = Map.copyOf(missed);
    used = Set.copyOf(used);
  }
}
