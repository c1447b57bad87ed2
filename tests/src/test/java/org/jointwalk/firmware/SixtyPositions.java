package org.jointwalk.firmware;

import java.util.List;
import java.util.Locale;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.jointwalk.trial.SmallMap;

/** A stack of sixty positions with a fault of each kind: small enough for an emulator. */
final class SixtyPositions {

  /** What the image for the emulator says it is, and the process is told to say. */
  static final String IDENTITY = "emulated fixture";

  private static final int POSITIONS = 60;

  private SixtyPositions() {}

  private static String id(int k) {
    return String.format(Locale.ROOT, "R%02d", k);
  }

  private static String net(int k) {
    return switch (k % 10) {
      case 0, 1, 2 -> "GND";
      case 3, 4 -> "RAIL";
      case 5, 6 -> "SIG" + k / 10 + "A";
      case 7, 8 -> "SIG" + k / 10 + "B";
      default -> "SIG" + k / 10 + "C";
    };
  }

  /** Whether a signal comes here for the first time. */
  private static boolean isNew(int k) {
    return k % 10 == 5 || k % 10 == 7 || k % 10 == 9;
  }

  /**
   * Of ten positions three are ground, two a rail, four lie in pairs on a signal and one is on a
   * signal of its own; signals have junctions to ground and rail on both boards.
   */
  static PadMap map() {
    SmallMap map =
        new SmallMap().net("GND", Role.GROUND).net("RAIL", Role.RAIL, "unknown", 1.8, true);
    for (int k = 0; k < POSITIONS; k++) {
      if (isNew(k)) {
        map.net(net(k), Role.SIGNAL);
      }
      map.pad(id(k), net(k));
    }
    for (Side side : Side.values()) {
      map.load(new Load.Resistor(side, "RAIL", "GND", new Ohms(220)));
      map.load(new Load.Capacitor(side, "RAIL", "GND", 1e-6));
      for (int k = 0; k < POSITIONS; k++) {
        if (isNew(k)) {
          map.load(new Load.Junction(side, "GND", net(k), Load.Material.SILICON));
          map.load(new Load.Junction(side, net(k), "RAIL", Load.Material.SILICON));
        }
      }
    }
    return map.map();
  }

  static FixtureMap wired(PadMap map, Capabilities capabilities) {
    return FixtureMaps.wired("sixty", map, capabilities);
  }

  /** As much as is needed to be the firmware's fixture: it says the rest itself. */
  static Capabilities firmware(PadMap map) {
    Capabilities c = FixtureMaps.relayMatrix(map).capabilities();
    return new Capabilities(
        IDENTITY,
        c.build(),
        "none",
        c.switching(),
        c.kelvin(),
        c.banks(),
        c.readers(),
        c.ranges(),
        c.path(),
        c.probes(),
        c.ratings());
  }

  static Specimen specimen(long seed) {
    Defects defects =
        Defects.NONE
            .with(new Component.Joint(Side.LOWER, id(15)), new Condition.Open())
            .with(new Component.Joint(Side.LOWER, id(26)), new Condition.High(new Ohms(6)))
            .with(new Component.Pad(Side.LOWER, id(38)), new Condition.Open())
            .with(
                Component.Bridge.between(Side.LOWER, id(46), id(47)),
                new Condition.Bridged(new Ohms(0.05)));
    return new Specimen("plain", seed, defects, List.of(), List.of());
  }
}
