package org.jointwalk.upkeep;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.fixture.Step;
import org.jointwalk.stack.Contact;

/**
 * The readings of one seating of the shorting plate. Some contacts are hubs: each is read against
 * each other hub, so that their parts are over-determined, and every other contact once to either
 * bus against a hub. That is a spanning tree of the two sets of switches, 2N - 1 readings, and some
 * twenty more that say whether the parts add up. A hub that is dirty is another contact's hub in
 * the next seating.
 */
final class ZeroSeat {

  static final int HUBS = 6;
  private static final int CANDIDATES = 12;
  private static final int ROUNDS = 60;

  private final List<Contact> contacts;
  private final List<Contact> candidates;
  private final Map<Pair, Double> read = new LinkedHashMap<>();
  private List<Contact> hubs = List.of();

  private record Pair(Contact high, Contact low) {}

  /**
   * @param seating counted from 0; each has other hubs
   */
  ZeroSeat(List<Contact> contacts, int seating) {
    this.contacts = contacts;
    int n = contacts.size();
    int some = Math.min(CANDIDATES, n);
    List<Contact> chosen = new ArrayList<>();
    for (int i = 0; i < some; i++) {
      chosen.add(contacts.get((int) (((long) i * n / some + seating * 5L) % n)));
    }
    candidates = chosen.stream().distinct().toList();
  }

  /** Every candidate against every other. */
  List<Step> trial(Steps steps) {
    List<Step> all = new ArrayList<>();
    for (Contact high : candidates) {
      for (Contact low : candidates) {
        if (!high.equals(low)) {
          all.add(steps.pair(steps.gentlest(), high, low));
        }
      }
    }
    return all;
  }

  void keep(List<Taken> taken) {
    for (Taken one : taken) {
      one.point()
          .filter(p -> p.amps() != 0)
          .map(p -> p.volts() / p.amps())
          .ifPresent(ohms -> read.put(new Pair(one.step().a(), one.step().b()), ohms));
    }
  }

  /** Takes as hubs those that all conduct to one another; false when there are too few. */
  boolean choose() {
    List<Contact> left = new ArrayList<>(candidates);
    while (left.size() > 2 && bad(left, left.get(worst(left))) > 0) {
      left.remove(worst(left));
    }
    hubs = List.copyOf(left.subList(0, Math.min(HUBS, left.size())));
    return hubs.size() >= 3 && bad(hubs, hubs.get(0)) == 0;
  }

  private int worst(List<Contact> among) {
    int worst = 0;
    for (int i = 1; i < among.size(); i++) {
      if (bad(among, among.get(i)) > bad(among, among.get(worst))) {
        worst = i;
      }
    }
    return worst;
  }

  private long bad(List<Contact> among, Contact one) {
    return among.stream()
        .filter(other -> !other.equals(one))
        .filter(
            other ->
                !read.containsKey(new Pair(one, other)) || !read.containsKey(new Pair(other, one)))
        .count();
  }

  /**
   * Every other contact to either bus.
   *
   * @param turn which hub; the next one for what the last could not read
   */
  List<Step> all(Steps steps, int turn) {
    List<Step> all = new ArrayList<>();
    for (int i = 0; i < contacts.size(); i++) {
      Contact contact = contacts.get(i);
      if (hubs.contains(contact)) {
        continue;
      }
      Contact hub = hubs.get((i + turn) % hubs.size());
      if (hubs.stream().noneMatch(h -> read.containsKey(new Pair(contact, h)))) {
        all.add(steps.pair(steps.gentlest(), contact, hub));
      }
      if (hubs.stream().noneMatch(h -> read.containsKey(new Pair(h, contact)))) {
        all.add(steps.pair(steps.gentlest(), hub, contact));
      }
    }
    return all;
  }

  /** The parts, by least squares among the hubs. */
  ZeroFit.Seat fit() {
    Map<Contact, Double> high = new LinkedHashMap<>();
    Map<Contact, Double> low = new LinkedHashMap<>();
    hubs.forEach(hub -> low.put(hub, 0.0));
    // Each pass leaves a part in (hubs - 1) squared of the error: far below rounding after all.
    for (int round = 0; round < ROUNDS; round++) {
      hubs.forEach(hub -> high.put(hub, mean(hub, low, true)));
      hubs.forEach(hub -> low.put(hub, mean(hub, high, false)));
    }
    double squares = 0;
    int n = 0;
    for (Contact a : hubs) {
      for (Contact b : hubs) {
        if (!a.equals(b)) {
          double left =
              read.getOrDefault(new Pair(a, b), 0.0)
                  - high.getOrDefault(a, 0.0)
                  - low.getOrDefault(b, 0.0);
          squares += left * left;
          n++;
        }
      }
    }
    int free = n - 2 * hubs.size() + 1;
    for (Contact contact : contacts) {
      if (!hubs.contains(contact)) {
        for (Contact hub : hubs) {
          Optional.ofNullable(read.get(new Pair(contact, hub)))
              .ifPresent(ohms -> high.putIfAbsent(contact, ohms - low.getOrDefault(hub, 0.0)));
          Optional.ofNullable(read.get(new Pair(hub, contact)))
              .ifPresent(ohms -> low.putIfAbsent(contact, ohms - high.getOrDefault(hub, 0.0)));
        }
      }
    }
    return new ZeroFit.Seat(high, low, squares, free);
  }

  private double mean(Contact hub, Map<Contact, Double> others, boolean isHigh) {
    return hubs.stream()
        .filter(other -> !other.equals(hub))
        .mapToDouble(
            other ->
                read.getOrDefault(isHigh ? new Pair(hub, other) : new Pair(other, hub), 0.0)
                    - others.getOrDefault(other, 0.0))
        .average()
        .orElse(0);
  }
}
