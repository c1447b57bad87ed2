package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Action;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;

/** A ring of forty in a virtual fixture, and the few words that its tests share. */
final class Clamped {

  static final String ON_LOWER = "interposer-on-lower";
  static final Action SPLIT = new Action.Split(Side.UPPER);
  static final double[] JUNCTION = {0.05e-3, 0.224e-3, 1e-3};

  static final PadMap MAP = Rings.map(40);

  static VirtualFixture fixture(
      Kelvin kelvin, Switching switching, Defects defects, Specimen.Trouble... troubles) {
    return new VirtualFixture(
        MAP,
        Rings.specimen(7, defects, troubles),
        Rings.fixture(MAP, kelvin, switching),
        VirtualFixture.Conditions.CALM);
  }

  /** The interposer on its lower board in a two-probe multiplexer with sense at the tail. */
  static VirtualFixture clamped(Defects defects, Specimen.Trouble... troubles) {
    VirtualFixture fixture = fixture(Kelvin.TAIL, Switching.MULTIPLEXER, defects, troubles);
    clamp(fixture, ON_LOWER, SPLIT);
    return fixture;
  }

  static void clamp(VirtualFixture fixture, String setUp, Action... actions) {
    fixture.clamp(SetUp.named(setUp).orElseThrow(), List.of(actions));
  }

  static List<Reading> run(VirtualFixture fixture, Step... steps) throws FixtureException {
    List<Reading> readings = new ArrayList<>();
    fixture.run(Scan.of(ON_LOWER, List.of(steps)), batch -> readings.addAll(batch.readings()));
    return readings;
  }

  static Step step(Kind kind, Contact a, Contact b, double volts, double... amps) {
    return new Step(
        kind,
        List.of(a),
        List.of(b),
        Arrays.stream(amps).mapToObj(Amps::new).toList(),
        new Volts(volts),
        1);
  }

  static Step lowLevel(Contact a, Contact b) {
    return step(Kind.LOW_LEVEL, a, b, 0.02, 0.01);
  }

  static Step isolation(Contact a, Contact b) {
    return step(Kind.ISOLATION, a, b, 0.05);
  }

  static Reading.Point point(Reading reading) {
    return points(reading).get(0);
  }

  static List<Reading.Point> points(Reading reading) {
    return reading instanceof Reading.OverRange over
        ? over.points()
        : ((Reading.Measured) reading).points();
  }

  static double ohms(Reading reading) {
    return point(reading).volts() / point(reading).amps();
  }

  static Defects one(Component component, Condition condition) {
    return Defects.NONE.with(component, condition);
  }

  static Component joint(int k) {
    return new Component.Joint(Side.LOWER, Rings.id(k));
  }

  private Clamped() {}
}
