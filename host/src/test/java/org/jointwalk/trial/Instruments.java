package org.jointwalk.trial;

import java.util.EnumMap;
import java.util.Map;
import org.jointwalk.fixture.Capabilities;
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

/** Capabilities of fixtures that nobody builds. */
public final class Instruments {

  private Instruments() {}

  /** Everything can be read, without noise, switches or contacts. */
  public static Capabilities ideal(Switching switching) {
    Map<Kind, Range> ranges = new EnumMap<>(Kind.class);
    for (Kind kind : Kind.values()) {
      ranges.put(kind, range(0.1, 5, 0, 0, 0, 0));
    }
    return capabilities(switching, Kelvin.TIP, ranges, new Ohms(0), new Ohms(0));
  }

  /**
   * Two wires, with round figures: scale 1 %, zero 10 microvolt, noise 20 microvolt and 1
   * microampere, switches of 0.3 and 0.2 ohm known to 0.05 ohm, contacts of 0.04 ohm that spread by
   * 0.02 ohm.
   */
  public static Capabilities round(Switching switching, Kelvin kelvin) {
    Map<Kind, Range> ranges = new EnumMap<>(Kind.class);
    for (Kind kind : Kind.values()) {
      ranges.put(kind, range(0.1, 5, 0.01, 10e-6, 20e-6, 1e-6));
    }
    return capabilities(switching, kelvin, ranges, new Ohms(0.05), new Ohms(0.02));
  }

  /** The same fixture without some kinds of step. */
  public static Capabilities without(Capabilities all, Kind... kinds) {
    Map<Kind, Range> ranges = new EnumMap<>(all.ranges());
    for (Kind kind : kinds) {
      ranges.remove(kind);
    }
    return with(all, ranges);
  }

  /** The same fixture with another range for a kind of step. */
  public static Capabilities with(Capabilities all, Kind kind, Range range) {
    Map<Kind, Range> ranges = new EnumMap<>(all.ranges());
    ranges.put(kind, range);
    return with(all, ranges);
  }

  /** A range of ten milliseconds a reading. */
  public static Range range(
      double amps, double volts, double gain, double offset, double noise, double currentNoise) {
    return new Range(
        new Amps(amps),
        new Volts(volts),
        gain,
        new Volts(offset),
        new Volts(noise),
        new Amps(currentNoise),
        0.01);
  }

  private static Capabilities with(Capabilities all, Map<Kind, Range> ranges) {
    return new Capabilities(
        all.identity(),
        all.build(),
        all.calibration(),
        all.switching(),
        all.kelvin(),
        all.banks(),
        all.readers(),
        ranges,
        all.path(),
        all.probes(),
        all.ratings());
  }

  private static Capabilities capabilities(
      Switching switching, Kelvin kelvin, Map<Kind, Range> ranges, Ohms switches, Ohms contacts) {
    boolean ideal = switches.value() == 0;
    return new Capabilities(
        "trial",
        "1",
        "1",
        switching,
        kelvin,
        1,
        1,
        ranges,
        new Path(new Ohms(ideal ? 0 : 0.3), new Ohms(ideal ? 0 : 0.2), switches, new Amps(0), 0, 0),
        new ProbeQuality(new Ohms(ideal ? 0 : 0.04), contacts),
        new Ratings(new Volts(6), 0, 10));
  }
}
