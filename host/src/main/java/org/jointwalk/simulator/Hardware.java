package org.jointwalk.simulator;

import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import org.jointwalk.files.Names;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Specimen;

/**
 * The switches and the instrument of one fixture, drawn once from its identity: the same fixture
 * stays the same from job to job. Immutable.
 */
final class Hardware {

  /** Of the variance of a closed switch, what changes with every closure. */
  private static final double OF_CLOSURE = 0.2;

  /** Of the variance of a zero after reversal, what is thermal voltage of the path. */
  private static final double OF_PATH = 0.5;

  private static final double LEAST_SHARE = 0.1;

  /** Two welded relays have at least this resistance, in ohm. */
  private static final double LEAST_WELD = 1e-3;

  private final FixtureMap fixture;
  private final Draw own;
  private final Map<Contact, Integer> wires = new HashMap<>();
  private final Map<Specimen.Pole, Set<Contact>> stuckOpen = new EnumMap<>(Specimen.Pole.class);
  private final Map<Specimen.Pole, Map<Contact, Double>> strays =
      new EnumMap<>(Specimen.Pole.class);
  private double scale;
  private double noise = 1;
  private double settling;
  private boolean deadLid;

  Hardware(FixtureMap fixture, Specimen specimen) {
    this.fixture = fixture;
    own = new Draw(0xF1C7L).at(capabilities().identity());
    for (Channel channel : fixture.channels()) {
      wires.merge(channel.contact(), 1, Integer::sum);
    }
    for (Specimen.Pole pole : Specimen.Pole.values()) {
      stuckOpen.put(pole, new HashSet<>());
      strays.put(pole, new LinkedHashMap<>());
    }
    specimen.troubles().forEach(this::take);
  }

  private void take(Specimen.Trouble trouble) {
    if (trouble instanceof Specimen.Trouble.StuckOpen stuck) {
      open(Specimen.Pole.HIGH, stuck.contact());
      open(Specimen.Pole.LOW, stuck.contact());
    } else if (trouble instanceof Specimen.Trouble.StuckClosed stuck) {
      close(Specimen.Pole.HIGH, stuck.contact());
      close(Specimen.Pole.LOW, stuck.contact());
    } else if (trouble instanceof Specimen.Trouble.RelayOpen relay) {
      open(relay.pole(), relay.contact());
    } else if (trouble instanceof Specimen.Trouble.RelayClosed relay) {
      close(relay.pole(), relay.contact());
    } else if (trouble instanceof Specimen.Trouble.Leaky leaky) {
      stray(leaky.pole(), leaky.contact(), leaky.ohms().value());
    } else if (trouble instanceof Specimen.Trouble.Scale wrong) {
      scale = wrong.fraction();
    } else if (trouble instanceof Specimen.Trouble.Noisy noisy) {
      noise = noisy.factor();
    } else if (trouble instanceof Specimen.Trouble.Slow slow) {
      settling = slow.seconds();
    } else if (trouble instanceof Specimen.Trouble.DeadLid) {
      deadLid = true;
    }
  }

  private void open(Specimen.Pole pole, Contact contact) {
    stuckOpen.getOrDefault(pole, Set.of()).add(contact);
  }

  private void close(Specimen.Pole pole, Contact contact) {
    stray(pole, contact, closedOhms(pole.isHigh()));
  }

  private void stray(Specimen.Pole pole, Contact contact, double ohms) {
    strays.getOrDefault(pole, Map.of()).put(contact, ohms);
  }

  private double closedOhms(boolean high) {
    double typical =
        (high ? capabilities().path().highOhms() : capabilities().path().lowOhms()).value();
    return Math.max(typical, Network.LEAST_OHMS);
  }

  /** What conducts although it is open: ohms by contact, for each bus. */
  Map<Contact, Double> strays(Specimen.Pole pole) {
    return strays.getOrDefault(pole, Map.of());
  }

  /** Whether anything conducts although it is open. */
  boolean strays() {
    return strays.values().stream().anyMatch(ohms -> !ohms.isEmpty());
  }

  /** By how much readings are noisier than the fixture says. */
  double noise() {
    return noise;
  }

  /** Time constant with which a voltage settles after a relay has closed, in seconds. */
  double settling() {
    return settling;
  }

  /** Whether the lid's counter stands still. */
  boolean hasDeadLid() {
    return deadLid;
  }

  Capabilities capabilities() {
    return fixture.capabilities();
  }

  /** How many channels close when a contact is switched to a bus. */
  int channels(Contact contact) {
    return wires.getOrDefault(contact, 0);
  }

  boolean isStuckOpen(Contact contact, Specimen.Pole pole) {
    return stuckOpen.getOrDefault(pole, Set.of()).contains(contact);
  }

  /** Resistance of a contact's closed switch in ohm. */
  double switchOhms(Contact contact, boolean high, Draw closure) {
    double typical =
        (high ? capabilities().path().highOhms() : capabilities().path().lowOhms()).value();
    double sd = capabilities().path().sd().value();
    double ohms = ownOhms(contact, high) + sd * Math.sqrt(OF_CLOSURE) * closure.gaussian();
    return Math.max(ohms, LEAST_SHARE * typical);
  }

  /** What a contact's closed switch has on the average of its closures, in ohm. */
  double ownOhms(Contact contact, boolean high) {
    double sd = capabilities().path().sd().value();
    double typical =
        (high ? capabilities().path().highOhms() : capabilities().path().lowOhms()).value();
    return typical
        + sd * Math.sqrt(1 - OF_CLOSURE) * own.at(Names.of(contact)).at(high ? 1 : 0).gaussian();
  }

  /**
   * What lies between the buses with nothing closed, in siemens. A contact that never leaves either
   * bus joins them; open channels leak at their stated current at the clamp voltage.
   */
  double idleSiemens() {
    double leak =
        own.at("leakage").lognormal(1, 0.3)
            * capabilities().path().leakage().value()
            * fixture.channels().size()
            / (2 * capabilities().ratings().clamp().value());
    return leak + weldedSiemens();
  }

  private double weldedSiemens() {
    Map<Contact, Double> low = strays(Specimen.Pole.LOW);
    double siemens = 0;
    for (Map.Entry<Contact, Double> high : strays(Specimen.Pole.HIGH).entrySet()) {
      if (low.containsKey(high.getKey())) {
        siemens += 1 / Math.max(high.getValue() + low.getOrDefault(high.getKey(), 0.0), LEAST_WELD);
      }
    }
    return siemens;
  }

  /** How far the scale of a range is off, as a fraction. */
  double gain(Kind kind, Range range) {
    return scale + range.gain() * own.at("gain").at(kind.name()).gaussian();
  }

  /** What a range reads at zero on a path, in volt. */
  double zeroVolts(Kind kind, Range range, Draw path) {
    return range.offset().value()
        * (Math.sqrt(1 - OF_PATH) * own.at("zero").at(kind.name()).gaussian()
            + Math.sqrt(OF_PATH) * path.gaussian());
  }
}
