package org.jointwalk.saltmarsh;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Path;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Ratings;
import org.jointwalk.fixture.Switching;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;

/**
 * Fixtures for a pad map: a probe on each plate for every position, a wire to every access point.
 * The figures are calculated for parts that can be had, no source; a contact spreads by 10
 * milliohm.
 */
public final class FixtureMaps {

  private static final ProbeQuality PROBES = new ProbeQuality(new Ohms(0.02), new Ohms(0.01));

  private FixtureMaps() {}

  /**
   * Solid-state relays, two wires to a contact, 16 bit: about 32 milliohm of uncertainty for two
   * contacts in one reading. The default of the demo.
   */
  public static FixtureMap photoRelay(PadMap map) {
    Map<Kind, Range> ranges = voltmeter(100e-6, 100e-9, 3e-3);
    ranges.put(Kind.LOW_LEVEL, range(12e-3, 0.02, 1e-3, 60e-6, 30e-6, 1e-6, 4e-3));
    ranges.put(Kind.NORMAL_LEVEL, range(50e-3, 2, 1e-3, 60e-6, 60e-6, 2e-6, 3e-3));
    // Four hundred open channels of a nanoampere each leak on a bus; most of it is subtracted.
    ranges.put(Kind.ISOLATION, range(1e-3, 5, 2e-3, 100e-6, 60e-6, 100e-9, 4e-3));
    ranges.put(Kind.JUNCTION, range(1e-3, 1, 1e-4, 80e-6, 60e-6, 10e-9, 5e-3));
    return wired(
        "saltmarsh-photo-relay",
        map,
        new Capabilities(
            "marsh-photo-1",
            "virtual-1",
            "works-1",
            Switching.MULTIPLEXER,
            Kelvin.NONE,
            1,
            1,
            ranges,
            new Path(
                new Ohms(0.25), new Ohms(0.25), new Ohms(0.02), new Amps(1e-9), 0.5e-3, 0.2e-3),
            PROBES,
            new Ratings(new Volts(6), 0, 10)));
  }

  /**
   * Signal relays in a matrix, the sense wire joined behind the probe: 14 milliohm, which is the
   * spread of two contacts.
   */
  public static FixtureMap relayMatrix(PadMap map) {
    Map<Kind, Range> ranges = voltmeter(50e-6, 1e-9, 10e-3);
    ranges.put(Kind.LOW_LEVEL, range(40e-3, 0.02, 5e-4, 5e-6, 5e-6, 1e-6, 40e-3));
    ranges.put(Kind.NORMAL_LEVEL, range(100e-3, 2, 5e-4, 5e-6, 5e-6, 1e-6, 20e-3));
    ranges.put(Kind.ISOLATION, range(1e-3, 5, 1e-3, 20e-6, 20e-6, 1e-9, 20e-3));
    ranges.put(Kind.JUNCTION, range(1e-3, 1, 5e-5, 40e-6, 30e-6, 1e-9, 15e-3));
    return wired("saltmarsh-relay-matrix", map, relays("marsh-matrix-1", Kelvin.TAIL, ranges));
  }

  /** Two tips on every pad and four buses, 24 bit: 10 to 100 microohm, the contact not in it. */
  public static FixtureMap fourBus(PadMap map) {
    Map<Kind, Range> ranges = voltmeter(20e-6, 1e-9, 20e-3);
    ranges.put(Kind.LOW_LEVEL, range(40e-3, 0.02, 2e-4, 1e-6, 0.5e-6, 0.5e-6, 90e-3));
    ranges.put(Kind.NORMAL_LEVEL, range(100e-3, 2, 2e-4, 1e-6, 0.5e-6, 0.5e-6, 40e-3));
    ranges.put(Kind.ISOLATION, range(1e-3, 5, 5e-4, 10e-6, 10e-6, 1e-9, 40e-3));
    ranges.put(Kind.JUNCTION, range(1e-3, 1, 2e-5, 15e-6, 10e-6, 1e-9, 40e-3));
    return wired("saltmarsh-four-bus", map, relays("marsh-four-1", Kelvin.TIP, ranges));
  }

  /**
   * Analog switches, two wires, 12 bit, no low level: about 2.5 ohm, so that it tells a path from
   * none and little more.
   */
  public static FixtureMap analogSwitch(PadMap map) {
    Map<Kind, Range> ranges = voltmeter(500e-6, 200e-9, 1e-3);
    ranges.put(Kind.NORMAL_LEVEL, range(10e-3, 3, 3e-3, 500e-6, 500e-6, 5e-6, 1e-3));
    ranges.put(Kind.ISOLATION, range(1e-3, 3, 5e-3, 500e-6, 500e-6, 200e-9, 1e-3));
    ranges.put(Kind.JUNCTION, range(1e-3, 1, 1e-3, 400e-6, 300e-6, 200e-9, 2e-3));
    return wired(
        "saltmarsh-analog-switch",
        map,
        new Capabilities(
            "marsh-analog-1",
            "virtual-1",
            "works-1",
            Switching.MULTIPLEXER,
            Kelvin.NONE,
            1,
            1,
            ranges,
            new Path(new Ohms(60), new Ohms(60), new Ohms(1.75), new Amps(1e-9), 20e-6, 20e-6),
            PROBES,
            new Ratings(new Volts(3.6), 0, 2)));
  }

  /** No noise, no contact, no error: for learning what stacks are, never for judging them. */
  static FixtureMap ideal(PadMap map) {
    Map<Kind, Range> ranges = new EnumMap<>(Kind.class);
    ranges.put(Kind.ISOLATION, range(1e-3, 5, 0, 0, 0, 0, 1e-3));
    ranges.put(Kind.JUNCTION, range(1e-3, 1, 0, 0, 0, 0, 1e-3));
    return wired(
        "ideal",
        map,
        new Capabilities(
            "ideal",
            "virtual-1",
            "none",
            Switching.MULTIPLEXER,
            Kelvin.TIP,
            1,
            1,
            ranges,
            new Path(new Ohms(0.1), new Ohms(0.1), new Ohms(0), new Amps(0), 0, 0),
            new ProbeQuality(new Ohms(0), new Ohms(0)),
            new Ratings(new Volts(6), 0, 1)));
  }

  /**
   * Wires a fixture of any capabilities to a map: the upper plate, the lower plate, the access
   * points, a force channel each and, for a Kelvin fixture, the sense channels after all of them.
   */
  public static FixtureMap wired(String name, PadMap map, Capabilities capabilities) {
    List<Contact> contacts = new ArrayList<>();
    for (Plate plate : Plate.values()) {
      map.positions().keySet().forEach(id -> contacts.add(new Contact.Pad(plate, id)));
    }
    map.points().keySet().forEach(id -> contacts.add(new Contact.Point(id)));
    List<Channel> channels = new ArrayList<>();
    for (Channel.Use use : Channel.Use.values()) {
      if (use == Channel.Use.FORCE || capabilities.kelvin() != Kelvin.NONE) {
        contacts.forEach(contact -> channels.add(new Channel(channels.size(), contact, use)));
      }
    }
    return new FixtureMap(name, map.device(), capabilities, channels, Set.of());
  }

  private static Capabilities relays(String identity, Kelvin kelvin, Map<Kind, Range> ranges) {
    return new Capabilities(
        identity,
        "virtual-1",
        "works-1",
        Switching.MATRIX,
        kelvin,
        1,
        1,
        ranges,
        new Path(new Ohms(0.1), new Ohms(0.1), new Ohms(0.003), new Amps(0.01e-9), 3e-3, 2e-3),
        PROBES,
        new Ratings(new Volts(6), 10_000_000, 60));
  }

  /** The kinds of step that only read a voltage or lay a resistor across the contacts. */
  private static Map<Kind, Range> voltmeter(double volts, double amps, double seconds) {
    Map<Kind, Range> ranges = new EnumMap<>(Kind.class);
    ranges.put(Kind.ALL_OPEN, range(1e-6, 5, 1e-3, volts, volts, amps, seconds));
    ranges.put(Kind.RESIDUAL, range(1e-6, 5, 1e-3, volts, volts, amps, seconds));
    ranges.put(Kind.RESIDUAL_LOADED, range(0.5e-3, 5, 1e-3, volts, volts, amps, seconds));
    ranges.put(Kind.DISCHARGE, range(50e-3, 5, 1e-2, volts, volts, amps, 0.1));
    return ranges;
  }

  private static Range range(
      double amps,
      double volts,
      double gain,
      double offset,
      double noise,
      double currentNoise,
      double seconds) {
    return new Range(
        new Amps(amps),
        new Volts(volts),
        gain,
        new Volts(offset),
        new Volts(noise),
        new Amps(currentNoise),
        seconds);
  }
}
