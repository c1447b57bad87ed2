package org.jointwalk.upkeep;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Zero;
import org.jointwalk.quantity.Contribution;
import org.jointwalk.stack.Contact;

/**
 * Makes a zero of the seatings of a shorting plate. In each seating the way over two contacts is a
 * part of one and a part of the other, contacts included; the parts are averaged over the seatings,
 * and how far they scatter says how sure the mean is. Stateless but for what it is given.
 */
final class ZeroFit {

  /** Scatter beyond what the record says by this factor in variance is no chance any more. */
  private static final double TOO_MUCH = 6;

  /**
   * Variance of a way in readings of one seating: two readings, less two parts of hubs, which rest
   * on 30 readings for 11 unknowns (the mean leverage of a fit, 11/30).
   */
  private static final double OF_WAY = 2.4;

  /** A switch this many standard deviations from its own mean is not relied on. */
  private static final double OWN = 6;

  /** What the record says of the switches may be off by so many of its standard deviations. */
  private static final double OF_RECORD = 2.5;

  /** Of the readings that are lost to dirt, more than this share is a fault of the plate. */
  private static final double MISSING = 0.05;

  private final Capabilities able;
  private final Kind kind;
  private final double amps;

  /**
   * @param kind of step that was used
   * @param amps that flowed, about
   */
  ZeroFit(Capabilities able, Kind kind, double amps) {
    this.able = able;
    this.kind = kind;
    this.amps = amps;
  }

  /** The zero of some seatings, at least two. */
  Zero of(List<Seat> seatings, int contacts, Instant at, Optional<Double> celsius) {
    List<Seat> level = seatings.stream().map(this::levelled).toList();
    Set<Contact> all = new LinkedHashSet<>();
    level.forEach(seat -> all.addAll(seat.high().keySet()));
    level.forEach(seat -> all.addAll(seat.low().keySet()));
    double spread = spread(level, List.copyOf(all));
    double noise = noise(level);
    Map<Contact, Double> high = means(level, all, true, spread);
    Map<Contact, Double> low = means(level, all, false, spread);
    double path = middle(high) + middle(low);
    // What changes from seating to seating is contact, as far as it is not noise of the readings.
    double seated = Math.max(0, spread * spread - OF_WAY * noise * noise);
    double record = able.probes().sd().value();
    double lasting = Math.sqrt(Math.max(0, 2 * record * record - seated));
    Range range = able.range(kind).orElseThrow();
    return new Zero(
        able.identity(),
        able.build(),
        able.calibration(),
        at,
        celsius,
        kind,
        seatings.size(),
        high,
        low,
        List.of(
            new Contribution(
                "spread of the zero over " + seatings.size() + " seatings of the plate",
                spread / Math.sqrt(seatings.size()),
                Math.max(1, all.size() / 2.0 * (seatings.size() - 1))),
            Contribution.known("scale of the range in the zero", range.gain() * Math.abs(path)),
            Contribution.known("thermal voltage in the zero", range.offset().value() / amps)),
        Contribution.known("contact of the two probes on the plate", lasting),
        doubts(contacts, high, low, path, spread, noise));
  }

  /** The same seating with the part that is free to choose taken from the record. */
  private Seat levelled(Seat seat) {
    double contact = able.probes().typical().value();
    double shift = able.path().highOhms().value() + contact - middle(seat.high());
    Map<Contact, Double> high = new LinkedHashMap<>();
    Map<Contact, Double> low = new LinkedHashMap<>();
    seat.high().forEach((c, ohms) -> high.put(c, ohms + shift - contact));
    seat.low().forEach((c, ohms) -> low.put(c, ohms - shift - contact));
    return new Seat(high, low, seat.squares(), seat.free());
  }

  /** Standard deviation of a way from seating to seating: of pairs that share no contact. */
  private static double spread(List<Seat> seatings, List<Contact> contacts) {
    double squares = 0;
    int free = 0;
    int half = contacts.size() / 2;
    for (int i = 0; i < contacts.size(); i++) {
      Contact a = contacts.get(i);
      Contact b = contacts.get((i + half) % contacts.size());
      List<Double> ways = new ArrayList<>();
      for (Seat seat : seatings) {
        if (seat.high().containsKey(a) && seat.low().containsKey(b)) {
          ways.add(seat.high().getOrDefault(a, 0.0) + seat.low().getOrDefault(b, 0.0));
        }
      }
      double mean = ways.stream().mapToDouble(d -> d).average().orElse(0);
      squares += ways.stream().mapToDouble(d -> (d - mean) * (d - mean)).sum();
      free += Math.max(0, ways.size() - 1);
    }
    return free == 0 ? 0 : Math.sqrt(squares / free);
  }

  /**
   * Standard deviation of a reading within a seating, from the readings that are more than need be.
   */
  private static double noise(List<Seat> seatings) {
    double squares = seatings.stream().mapToDouble(Seat::squares).sum();
    int free = seatings.stream().mapToInt(Seat::free).sum();
    return free == 0 ? 0 : Math.sqrt(squares / free);
  }

  /** The means of the switches that were read in all seatings but one, and alike. */
  private static Map<Contact, Double> means(
      List<Seat> seatings, Set<Contact> contacts, boolean high, double spread) {
    Map<Contact, Double> means = new LinkedHashMap<>();
    for (Contact contact : contacts) {
      List<Double> parts = new ArrayList<>();
      for (Seat seat : seatings) {
        Optional.ofNullable((high ? seat.high() : seat.low()).get(contact)).ifPresent(parts::add);
      }
      double mean = parts.stream().mapToDouble(d -> d).average().orElse(0);
      boolean alike = parts.stream().allMatch(d -> Math.abs(d - mean) <= OWN * spread);
      if (parts.size() >= Math.max(2, seatings.size() - 1) && alike) {
        means.put(contact, mean);
      }
    }
    return means;
  }

  private List<String> doubts(
      int contacts,
      Map<Contact, Double> high,
      Map<Contact, Double> low,
      double path,
      double spread,
      double noise) {
    List<String> doubts = new ArrayList<>();
    double sd = able.path().sd().value();
    Range range = able.range(kind).orElseThrow();
    double read =
        Math.pow(range.noise().value() / amps, 2) + Math.pow(range.offset().value() / amps, 2);
    double inside = read + 2 * sd * sd;
    double over = inside + 2 * Math.pow(able.probes().sd().value(), 2);
    if (noise * noise > TOO_MUCH * inside) {
      doubts.add(
          "The readings of one seating do not add up: they scatter by "
              + milliohms(noise)
              + ". Check the fixture: fixture check --plate.");
    }
    if (spread * spread > TOO_MUCH * over) {
      doubts.add(
          "The seatings differ by "
              + milliohms(spread)
              + " from one to the next. Clean the plate and the probes, then zero again.");
    }
    double stated = able.path().highOhms().value() + able.path().lowOhms().value();
    double most = OF_RECORD * (Math.sqrt(2) * sd + able.probes().sd().value());
    if (Math.abs(path - stated) > most) {
      doubts.add(
          "Two switches read "
              + milliohms(path)
              + ", the fixture's record says "
              + milliohms(stated)
              + ". A relay may be stuck closed: fixture check.");
    }
    int lost = 2 * contacts - high.size() - low.size();
    if (lost > MISSING * 2 * contacts) {
      doubts.add(
          lost
              + " of "
              + 2 * contacts
              + " switches were not reached. Is the plate clean, and the right way round?");
    }
    return doubts;
  }

  private static String milliohms(double ohms) {
    return Math.round(ohms * 1e3) + " mohm";
  }

  private static double middle(Map<Contact, Double> parts) {
    List<Double> sorted = parts.values().stream().sorted().toList();
    return sorted.isEmpty() ? 0 : sorted.get(sorted.size() / 2);
  }

  /**
   * What one seating of the plate says.
   *
   * @param high part of the way to the high bus, contact included, in ohm
   * @param low part of the way to the low bus
   * @param squares sum of the squares of what the fit leaves, in square ohm
   * @param free readings more than parts
   */
  record Seat(Map<Contact, Double> high, Map<Contact, Double> low, double squares, int free) {}
}
