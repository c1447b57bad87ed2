package org.jointwalk.upkeep;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Selfcheck.What;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.SetUp;

/** What the shorting plate shows: everything has to conduct. Not thread-safe. */
final class PlateCheck {

  /** What a way over two good contacts may have above what the record says, in ohm. */
  private static final double DIRT_OHMS = 0.5;

  /** Less than this share of the current is no path. */
  private static final double LEAST_SHARE = 0.05;

  /** So many times the voltage that is driven cannot be read: a fifth for scale and noise. */
  private static final double FLOATS = 1.2;

  /** Seatings in which a probe has to fail before it is a fault. */
  private static final int SEATINGS = 3;

  private static final int SAMPLES = 16;
  private static final double SIGMAS = 6;

  /** A reading of a contact that is welded to both buses stands out by this share. */
  private static final double OUT = 0.25;

  private final Run run;
  private final Stand stand;
  private final Fixture fixture;
  private final SetUp plate;
  private final Capabilities able;
  private final Steps steps;
  private final Findings findings;
  private final Kind kind;

  /** How a reading on the plate looks. */
  private enum Look {
    GOOD,
    OPEN,
    SENSE,
    DIRTY
  }

  PlateCheck(Run run, Stand stand, Fixture fixture, SetUp plate, Findings findings) {
    this.run = run;
    this.stand = stand;
    this.fixture = fixture;
    this.plate = plate;
    this.findings = findings;
    able = fixture.capabilities();
    steps = new Steps(able);
    kind = steps.can(Kind.NORMAL_LEVEL) ? Kind.NORMAL_LEVEL : Kind.LOW_LEVEL;
  }

  /**
   * Looks at everything.
   *
   * @param joined whether the buses are joined whatever is switched
   */
  void look(List<Contact> contacts, boolean joined) throws FixtureException, StoppedException {
    Culprits culprits = new Culprits(contacts, this::ask, t -> look(t) != Look.GOOD).find();
    if (joined) {
      welded(culprits.ring());
      return;
    }
    if (culprits.everywhere()) {
      findings.fault(
          What.NO_PATH,
          "nearly nothing conducts: is the plate in the fixture, the right way round?");
      return;
    }
    Map<Contact, Look> high = new LinkedHashMap<>();
    Map<Contact, Look> low = new LinkedHashMap<>();
    culprits.high().forEach(c -> high.put(c, look(culprits.reading(c, true))));
    culprits.low().forEach(c -> low.put(c, look(culprits.reading(c, false))));
    Set<Contact> both = new LinkedHashSet<>(high.keySet());
    both.addAll(low.keySet());
    // One relay that is open shows on one bus only; a contact or its wire on both.
    Set<Contact> seated =
        both.stream()
            .filter(c -> high.containsKey(c) && low.containsKey(c))
            .collect(Collectors.toCollection(LinkedHashSet::new));
    both.removeAll(seated);
    both.forEach(
        c -> relay(c, high.containsKey(c), high.getOrDefault(c, low.getOrDefault(c, Look.GOOD))));
    contactsOf(contacts, seated, high);
    linearity(contacts, new LinkedHashSet<>(high.keySet()), low.keySet());
  }

  private List<Taken> ask(List<Culprits.Pair> pairs) throws FixtureException, StoppedException {
    return run.take(
        fixture,
        plate,
        "Relays that never close",
        pairs.stream().map(p -> steps.pair(kind, p.high(), p.low())).toList());
  }

  private Look look(Taken taken) {
    Optional<Reading.Point> point = taken.point();
    if (point.filter(p -> Math.abs(p.amps()) >= LEAST_SHARE * steps.amps(kind)).isEmpty()) {
      return Look.OPEN;
    }
    if (point.filter(p -> Math.abs(p.volts()) > FLOATS * steps.volts(kind)).isPresent()) {
      return Look.SENSE;
    }
    return taken.ohms().filter(ohms -> ohms > most()).isPresent() ? Look.DIRTY : Look.GOOD;
  }

  private double most() {
    double path =
        able.kelvin().readsPath()
            ? able.path().highOhms().value() + able.path().lowOhms().value()
            : 0;
    double contact = able.kelvin().readsContact() ? 2 * able.probes().typical().value() : 0;
    return path
        + contact
        + DIRT_OHMS
        + SIGMAS * (able.path().sd().value() + able.probes().sd().value());
  }

  private void relay(Contact contact, boolean high, Look look) {
    String bus = high ? "high" : "low";
    switch (look) {
      case SENSE ->
          findings.fault(
              What.SENSE_STUCK_OPEN,
              contact,
              Channel.Use.SENSE,
              "its sense relay to the " + bus + " sense bus never closes: the voltage is lost");
      case DIRTY ->
          findings.fault(
              What.DIRTY_PATH,
              contact,
              Channel.Use.FORCE,
              "its relay to the " + bus + " bus has more than " + Findings.ohms(most()));
      default ->
          findings.fault(
              high ? What.HIGH_STUCK_OPEN : What.LOW_STUCK_OPEN,
              contact,
              Channel.Use.FORCE,
              "its relay to the " + bus + " bus never closes; to the other bus it conducts");
    }
  }

  /** What fails on both buses may be a probe that did not land: seated again, it may conduct. */
  private void contactsOf(List<Contact> contacts, Set<Contact> failed, Map<Contact, Look> looks)
      throws FixtureException, StoppedException {
    Set<Contact> left = new LinkedHashSet<>(failed);
    List<Contact> good = contacts.stream().filter(c -> !failed.contains(c)).toList();
    int seatings = 1;
    while (!left.isEmpty() && seatings < SEATINGS && stand.again()) {
      seatings++;
      List<Culprits.Pair> again = new ArrayList<>();
      left.forEach(c -> again.add(new Culprits.Pair(c, good.get(good.size() / 2))));
      for (Taken taken : ask(again)) {
        if (look(taken) == Look.GOOD) {
          left.remove(taken.step().a());
          findings.unseen(
              "one probe did not touch the plate in the first seating and did in another: clean it");
        }
      }
    }
    Set<Contact> points =
        left.stream().filter(Contact.Point.class::isInstance).collect(Collectors.toSet());
    long all = contacts.stream().filter(Contact.Point.class::isInstance).count();
    if (all > 1 && points.size() == all) {
      left.removeAll(points);
      findings.unseen(
          "relays of the access points that never close: the plate does not reach them");
    }
    for (Contact contact : left) {
      Look look = looks.getOrDefault(contact, Look.OPEN);
      String times = " in " + seatings + (seatings == 1 ? " seating" : " seatings");
      if (look == Look.SENSE) {
        findings.fault(
            What.SENSE_STUCK_OPEN,
            contact,
            Channel.Use.SENSE,
            "no voltage comes back to either sense bus"
                + times
                + ": its sense wire or both relays");
      } else {
        findings.fault(
            look == Look.DIRTY ? What.DIRTY_PATH : What.NO_PATH,
            contact,
            Channel.Use.FORCE,
            (look == Look.DIRTY ? "more than " + Findings.ohms(most()) : "no path to either bus")
                + times
                + ": the probe, its wire, or both relays");
      }
    }
  }

  /** With a contact on both buses, everything reads half but what is read with that contact. */
  private void welded(List<Taken> ring) {
    List<Double> all = ring.stream().map(PlateCheck::ohms).sorted().toList();
    double middle = all.get(all.size() / 2);
    for (int i = 0; i < ring.size(); i++) {
      Taken before = ring.get((i + ring.size() - 1) % ring.size());
      Taken after = ring.get(i);
      if (ohms(before) > (1 + OUT) * middle && ohms(after) > (1 + OUT) * middle) {
        findings.fault(
            What.BOTH_STUCK_CLOSED,
            after.step().a(),
            Channel.Use.FORCE,
            "neither of its relays opens: it joins the buses");
      }
    }
  }

  private static double ohms(Taken taken) {
    return taken.ohms().orElse(0.0);
  }

  /** The same way at a quarter, a half and all of the current has one resistance. */
  private void linearity(List<Contact> contacts, Set<Contact> high, Set<Contact> low)
      throws FixtureException, StoppedException {
    if (!able.kelvin().readsContact()) {
      findings.unseen("linearity and settling of small voltages: four tips read next to nothing");
      return;
    }
    List<Contact> good =
        contacts.stream().filter(c -> !high.contains(c) && !low.contains(c)).toList();
    Contact a = good.get(0);
    Contact b = good.get(good.size() / 2);
    List<Taken> taken =
        run.take(
            fixture,
            plate,
            "Linearity",
            List.of(
                steps.pair(kind, a, b, SAMPLES, 0.25),
                steps.pair(kind, a, b, SAMPLES, 0.5),
                steps.pair(kind, a, b, SAMPLES, 1)));
    Range range = steps.range(kind);
    List<Double> ohms = new ArrayList<>();
    for (Taken one : taken) {
      if (one.reading() instanceof Reading.Measured measured) {
        ohms.add(
            measured.points().stream().mapToDouble(p -> p.volts() / p.amps()).average().orElse(0));
      }
    }
    if (ohms.size() < 3) {
      return;
    }
    // An offset that is the same at all currents is allowed for; so are two closures of a relay.
    double quarter = steps.amps(kind) / 4;
    double closure = able.kelvin().readsPath() ? Math.sqrt(2) * able.path().sd().value() : 0;
    double limit =
        SIGMAS
            * Math.sqrt(
                2
                    * (Math.pow(range.noise().value() / quarter, 2)
                        + Math.pow(range.offset().value() / quarter, 2)
                        + closure * closure));
    double off = Math.max(Math.abs(ohms.get(0) - ohms.get(2)), Math.abs(ohms.get(1) - ohms.get(2)));
    findings.figure("change of a resistance with the current", off, "ohm", limit);
    if (off > limit) {
      findings.fault(
          What.LINEARITY,
          String.format(
              Locale.ROOT,
              "one way reads %.4f ohm at a quarter of the current and %.4f ohm at all of it",
              ohms.get(0),
              ohms.get(2)));
    }
  }
}
