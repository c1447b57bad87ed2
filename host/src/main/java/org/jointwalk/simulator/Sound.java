package org.jointwalk.simulator;

import java.util.Map;
import org.jointwalk.files.Names;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Link;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Side;

/**
 * What the sound parts of one specimen measure. A value belongs to the model first (so that all
 * good boards resemble each other and references learned from some fit the others) and to the
 * specimen second. Immutable.
 *
 * <p>Figures are assumptions: solder 0.1 to 1 milliohm, lognormal; copper within ten per cent;
 * parts within two; a junction's drop with a spread of 2 to 8 mV between boards and about -2 mV/K.
 */
final class Sound {

  /** Resistance of a good joint at the middle of its spread, in ohm. */
  private static final double SOLDER_OHMS = 0.4e-3;

  private static final double SOLDER_SIGMA = 0.3;
  private static final double COPPER_SIGMA = 0.1;
  private static final double PART_SIGMA = 0.02;

  /** The current at which drops are told, in ampere: the middle one of the usual three. */
  private static final double DROP_AMPS = 0.224e-3;

  private static final double ROOM_KELVIN = 296;
  private static final Draw MODEL = new Draw(0x5EEDL);

  private final Draw specimen;
  private final Map<Side, Double> warmer;

  /**
   * @param specimen draw of the specimen
   * @param warmer how much warmer than the room each board is, in kelvin
   */
  Sound(Draw specimen, Map<Side, Double> warmer) {
    this.specimen = specimen.at("sound");
    this.warmer = Map.copyOf(warmer);
  }

  /** How far good conductors of this kind lie apart, as a fraction. */
  static double spread(Link link) {
    return link.component().filter(Component.Joint.class::isInstance).isPresent()
        ? SOLDER_SIGMA
        : COPPER_SIGMA;
  }

  /** How far good parts lie apart, as a fraction. */
  static double partSpread() {
    return PART_SIGMA;
  }

  /** Resistance of a conductor in ohm. */
  double ohms(Link link) {
    if (link.component().isEmpty()) {
      return specimen.at(link.a() + " " + link.b()).lognormal(link.ohms().value(), COPPER_SIGMA);
    }
    Component component = link.component().get();
    Draw draw = specimen.at(Names.of(component));
    return component instanceof Component.Joint
        ? draw.lognormal(SOLDER_OHMS, SOLDER_SIGMA)
        : draw.lognormal(link.ohms().value(), COPPER_SIGMA);
  }

  /** Resistance of a part in ohm. */
  double ohms(Load load, double typical) {
    return specimen.at(name(load)).lognormal(typical, PART_SIGMA);
  }

  /**
   * The junction of a part.
   *
   * @param times how many times the impedance of a good one it has
   */
  Diode diode(Load.Junction load, double times) {
    Draw model = MODEL.at(name(load));
    Draw own = specimen.at(name(load));
    boolean silicon = load.material() == Load.Material.SILICON;
    double drift = warmer.getOrDefault(load.side(), 0.0);
    double typical =
        silicon ? model.at("drop").uniform(0.45, 0.70) : model.at("drop").uniform(0.15, 0.30);
    double spread = model.at("spread").uniform(0.002, 0.008);
    double volts =
        typical + spread * own.at("drop").gaussian() + (silicon ? -0.002 : -0.0013) * drift;
    double ideality = model.at("ideality").uniform(1.0, 1.3);
    double series = model.at("series").uniform(2, 20) * (1 + 0.03 * own.at("series").gaussian());
    Diode good =
        Diode.dropping(volts, DROP_AMPS, Diode.slope(ideality, ROOM_KELVIN + drift), series);
    return new Diode(good.saturation() / times, good.slope(), good.series() * times);
  }

  private static String name(Load load) {
    return load.side()
        + " "
        + load.getClass().getSimpleName()
        + " "
        + load.from()
        + " "
        + load.to();
  }
}
