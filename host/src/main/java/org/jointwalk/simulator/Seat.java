package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.files.Names;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Specimen;

/** One clamping: how the probes landed and which cracks the pressure holds shut. Immutable. */
final class Seat {

  /** A crack that is pressed together conducts about as well as this, in ohm. */
  private static final double PRESSED_OHMS = 5e-3;

  /** Where along the tilt probes begin to hang in the air, as a share of the ring. */
  private static final double TILT_FROM = 0.85;

  private static final double TILT_WIDTH = 0.03;

  private final int number;
  private final Draw own;
  private final Draw specimenDraw;
  private final Specimen specimen;
  private final PadMap map;
  private final ProbeQuality probes;
  private final Odds odds;
  private final SetUp setUp;
  private final Defects before;
  private final Map<Contact, Double> ohms = new HashMap<>();
  private final Set<Component> heldShut = new LinkedHashSet<>();
  private final Defects effective;

  /**
   * What chance decides in a clamping.
   *
   * @param law of the probes' resistance
   * @param miss probability that a sound probe does not land
   * @param closing probability that pressure closes a crack that is open without it
   */
  record Odds(ContactLaw law, double miss, double closing) {}

  /**
   * @param number counted from 1 over the life of the specimen
   * @param before defects as they are without pressure
   */
  Seat(
      int number,
      SetUp setUp,
      PadMap map,
      Specimen specimen,
      Defects before,
      ProbeQuality probes,
      Odds odds) {
    this.number = number;
    this.setUp = setUp;
    this.map = map;
    this.specimen = specimen;
    this.before = before;
    this.probes = probes;
    this.odds = odds;
    specimenDraw = new Draw(specimen.seed());
    own = specimenDraw.at("seating").at(number);
    effective = press();
  }

  int number() {
    return number;
  }

  /** The draw from which everything of this seating comes. */
  Draw draw() {
    return own;
  }

  /** The defects under pressure: what comes and goes has come or gone. */
  Defects effective() {
    return effective;
  }

  /** The components that conduct in this seating only because they are pressed. */
  Set<Component> heldShut() {
    return Set.copyOf(heldShut);
  }

  private Defects press() {
    boolean pressed = setUp.over().isPresent() || setUp.under().isPresent();
    Map<Component, Condition> now = new LinkedHashMap<>();
    before
        .conditions()
        .forEach(
            (component, condition) -> now.put(component, pressed(component, condition, pressed)));
    return new Defects(now);
  }

  private Condition pressed(Component component, Condition condition, boolean pressed) {
    if (component instanceof Component.Probe) {
      return condition;
    }
    String name = Names.of(component);
    if (condition instanceof Condition.TwoState twoState) {
      if (own.at("crack").at(name).uniform() < twoState.openShare()) {
        return new Condition.Open();
      }
      heldShut.add(component);
      return new Condition.High(twoState.ohms());
    }
    boolean crack = component instanceof Component.Joint || component instanceof Component.Pad;
    if (condition instanceof Condition.Open
        && crack
        && pressed
        && specimenDraw.at("crack").at(name).uniform() < odds.closing()) {
      heldShut.add(component);
      return new Condition.High(
          new Ohms(specimenDraw.at("pressed").at(name).lognormal(PRESSED_OHMS, 0.5)));
    }
    return condition;
  }

  /** Resistance of a probe and its contact in ohm; infinite when it did not land. */
  double ohms(Contact contact) {
    return ohms.computeIfAbsent(contact, this::land);
  }

  private double land(Contact contact) {
    String name = Names.of(contact);
    Draw landing = own.at("landing").at(name);
    if (isMissed(contact) || landing.at("miss").uniform() < odds.miss()) {
      return Double.POSITIVE_INFINITY;
    }
    double own = odds.law().ohms(probes, new Draw(specimen.seed()).at("probe").at(name), landing);
    return own + dirt(contact, landing);
  }

  private double dirt(Contact contact, Draw landing) {
    Condition condition = before.conditions().get(new Component.Probe(contact));
    if (condition instanceof Condition.Open) {
      return Double.POSITIVE_INFINITY;
    }
    if (condition instanceof Condition.High high) {
      return high.ohms().value();
    }
    if (condition instanceof Condition.TwoState twoState) {
      return landing.at("dirt").uniform() < twoState.openShare()
          ? Double.POSITIVE_INFINITY
          : twoState.ohms().value();
    }
    return 0;
  }

  private boolean isMissed(Contact contact) {
    for (Specimen.Trouble trouble : specimen.troubles()) {
      if (trouble instanceof Specimen.Trouble.Missed missed
          && missed.seating() == number
          && missed.contact().equals(contact)) {
        return true;
      }
      if (trouble instanceof Specimen.Trouble.Tilted tilted
          && tilted.seating() == number
          && contact instanceof Contact.Pad pad
          && hangs(pad)) {
        return true;
      }
    }
    return false;
  }

  /** The plate is low on one side; how far along the slope a probe stands decides. */
  private boolean hangs(Contact.Pad pad) {
    double angle = own.at("tilt").uniform(0, 2 * StrictMath.PI);
    double cos = StrictMath.cos(angle);
    double sin = StrictMath.sin(angle);
    List<Double> along = new ArrayList<>();
    for (Position p : map.positions().values()) {
      along.add(p.xMm() * cos + p.yMm() * sin);
    }
    double low = along.stream().mapToDouble(d -> d).min().orElseThrow();
    double high = along.stream().mapToDouble(d -> d).max().orElseThrow();
    Position at = map.position(pad.position());
    double share = (at.xMm() * cos + at.yMm() * sin - low) / Math.max(high - low, 1e-9);
    double odds = 1 / (1 + StrictMath.exp((TILT_FROM - share) / TILT_WIDTH));
    return own.at("hangs").at(pad.position()).uniform() < odds;
  }
}
