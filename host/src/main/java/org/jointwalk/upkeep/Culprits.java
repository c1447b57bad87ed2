package org.jointwalk.upkeep;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Step;
import org.jointwalk.stack.Contact;

/**
 * Finds which contact of a bad pair it is. Each contact is read once to either bus, in a ring; what
 * reads badly is read again with two others that read well. 2N readings of switches in N steps, and
 * four for each bad pair. For one question.
 */
final class Culprits {

  private static final int HELPERS = 3;

  private final List<Contact> contacts;
  private final Ask ask;
  private final Predicate<Taken> bad;
  private final List<Taken> ring = new ArrayList<>();
  private final Set<Contact> high = new LinkedHashSet<>();
  private final Set<Contact> low = new LinkedHashSet<>();
  private final List<Taken> pairs = new ArrayList<>();
  private final List<Taken> told = new ArrayList<>();
  private boolean everywhere;

  /** Takes readings of pairs, the first contact on the high bus. */
  @FunctionalInterface
  interface Ask {

    List<Taken> of(List<Pair> pairs) throws FixtureException, StoppedException;
  }

  /** Two contacts. */
  record Pair(Contact high, Contact low) {}

  Culprits(List<Contact> contacts, Ask ask, Predicate<Taken> bad) {
    this.contacts = contacts;
    this.ask = ask;
    this.bad = bad;
  }

  /** Reads until it is known. */
  Culprits find() throws FixtureException, StoppedException {
    List<Pair> all = new ArrayList<>();
    for (int i = 0; i < contacts.size(); i++) {
      all.add(new Pair(contacts.get(i), contacts.get((i + 1) % contacts.size())));
    }
    ring.addAll(ask.of(all));
    List<Taken> suspects = ring.stream().filter(bad).toList();
    if (suspects.isEmpty()) {
      return this;
    }
    List<Contact> helpers = helpers(suspects);
    if (helpers.size() < HELPERS) {
      everywhere = true;
      return this;
    }
    List<Pair> again = new ArrayList<>();
    for (Taken suspect : suspects) {
      Step step = suspect.step();
      for (Contact helper : helpers.subList(0, 2)) {
        again.add(new Pair(step.a(), helper));
        again.add(new Pair(helper, step.b()));
      }
    }
    List<Taken> answers = ask.of(again);
    for (int i = 0; i < suspects.size(); i++) {
      List<Taken> own = answers.subList(4 * i, 4 * i + 4);
      Step step = suspects.get(i).step();
      boolean isHigh = bad.test(own.get(0)) && bad.test(own.get(2));
      boolean isLow = bad.test(own.get(1)) && bad.test(own.get(3));
      if (isHigh) {
        high.add(step.a());
        told.add(own.get(0));
      }
      if (isLow) {
        low.add(step.b());
        told.add(own.get(1));
      }
      if (!isHigh && !isLow) {
        pairs.add(suspects.get(i));
      }
    }
    return this;
  }

  /** Contacts that read well to either bus, far apart. */
  private List<Contact> helpers(List<Taken> suspects) {
    Set<Contact> doubtful = new LinkedHashSet<>();
    for (Taken suspect : suspects) {
      doubtful.add(suspect.step().a());
      doubtful.add(suspect.step().b());
    }
    List<Contact> good = contacts.stream().filter(c -> !doubtful.contains(c)).toList();
    return good.size() < HELPERS
        ? good
        : List.of(good.get(0), good.get(good.size() / 2), good.get(good.size() - 1));
  }

  /** Every reading of the ring. */
  List<Taken> ring() {
    return ring;
  }

  /** Whether nearly every pair reads badly, so that nothing tells one from the other. */
  boolean everywhere() {
    return everywhere;
  }

  /** Contacts that read badly whenever they are on the high bus. */
  Set<Contact> high() {
    return high;
  }

  /** Contacts that read badly whenever they are on the low bus. */
  Set<Contact> low() {
    return low;
  }

  /** Readings that are bad of the two contacts together only. */
  List<Taken> pairs() {
    return pairs;
  }

  /** The reading that shows what is wrong with a contact. */
  Taken reading(Contact contact, boolean onHigh) {
    return told.stream()
        .filter(t -> (onHigh ? t.step().a() : t.step().b()).equals(contact))
        .findFirst()
        .orElseThrow();
  }
}
