package org.jointwalk.simulator;

import java.util.HashMap;
import java.util.HashSet;
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

  private final FixtureMap fixture;
  private final Draw own;
  private final Map<Contact, Integer> wires = new HashMap<>();
  private final Set<Contact> stuckOpen = new HashSet<>();
  private final Set<Contact> stuckClosed = new HashSet<>();

  Hardware(FixtureMap fixture, Specimen specimen) {
    this.fixture = fixture;
    own = new Draw(0xF1C7L).at(capabilities().identity());
    for (Channel channel : fixture.channels()) {
      wires.merge(channel.contact(), 1, Integer::sum);
    }
    for (Specimen.Trouble trouble : specimen.troubles()) {
      if (trouble instanceof Specimen.Trouble.StuckOpen stuck) {
        stuckOpen.add(stuck.contact());
      } else if (trouble instanceof Specimen.Trouble.StuckClosed stuck) {
        stuckClosed.add(stuck.contact());
      }
    }
  }

  Capabilities capabilities() {
    return fixture.capabilities();
  }

  /** How many channels close when a contact is switched to a bus. */
  int channels(Contact contact) {
    return wires.getOrDefault(contact, 0);
  }

  boolean isStuckOpen(Contact contact) {
    return stuckOpen.contains(contact);
  }

  /** Resistance of a contact's closed switch in ohm. */
  double switchOhms(Contact contact, boolean high, Draw closure) {
    double typical =
        (high ? capabilities().path().highOhms() : capabilities().path().lowOhms()).value();
    double sd = capabilities().path().sd().value();
    double ohms =
        typical
            + sd * Math.sqrt(1 - OF_CLOSURE) * own.at(Names.of(contact)).at(high ? 1 : 0).gaussian()
            + sd * Math.sqrt(OF_CLOSURE) * closure.gaussian();
    return Math.max(ohms, LEAST_SHARE * typical);
  }

  /**
   * What lies between the buses with nothing closed, in siemens. A stuck relay is welded on both
   * poles and so joins them; open channels leak at their stated current at the clamp voltage.
   */
  double idleSiemens() {
    double leak =
        own.at("leakage").lognormal(1, 0.3)
            * capabilities().path().leakage().value()
            * fixture.channels().size()
            / (2 * capabilities().ratings().clamp().value());
    double welded =
        capabilities().path().highOhms().value() + capabilities().path().lowOhms().value();
    return leak + stuckClosed.size() / Math.max(welded, 1e-3);
  }

  /** How far the scale of a range is off, as a fraction. */
  double gain(Kind kind, Range range) {
    return range.gain() * own.at("gain").at(kind.name()).gaussian();
  }

  /** What a range reads at zero on a path, in volt. */
  double zeroVolts(Kind kind, Range range, Draw path) {
    return range.offset().value()
        * (Math.sqrt(1 - OF_PATH) * own.at("zero").at(kind.name()).gaussian()
            + Math.sqrt(OF_PATH) * path.gaussian());
  }
}
