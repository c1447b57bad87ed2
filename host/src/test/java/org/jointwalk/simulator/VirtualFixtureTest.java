package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;

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
import org.junit.jupiter.api.Test;

class VirtualFixtureTest {

  private static final SetUp ON_LOWER = SetUp.named("interposer-on-lower").orElseThrow();
  private static final List<Action> SPLIT = List.of(new Action.Split(Side.UPPER));

  private final PadMap map = Rings.map(40);

  private VirtualFixture fixture(Defects defects, Specimen.Trouble... troubles) {
    return new VirtualFixture(
        map,
        Rings.specimen(7, defects, troubles),
        Rings.fixture(map, Kelvin.TAIL, Switching.MULTIPLEXER),
        VirtualFixture.Conditions.CALM);
  }

  private static List<Reading> run(VirtualFixture fixture, Step... steps) throws FixtureException {
    List<Reading> readings = new ArrayList<>();
    fixture.run(
        Scan.of("interposer-on-lower", List.of(steps)), batch -> readings.addAll(batch.readings()));
    return readings;
  }

  private static double ohms(Reading reading) {
    Reading.Point point = ((Reading.Measured) reading).points().get(0);
    return point.volts() / point.amps();
  }

  private Reading lowLevel(Defects defects) throws FixtureException {
    VirtualFixture fixture = fixture(defects);
    fixture.clamp(ON_LOWER, SPLIT);
    return run(fixture, pair(Kind.LOW_LEVEL, Rings.over(3), Rings.over(13), 0.02, 0.01)).get(0);
  }

  @Test
  void railReadsTwoContactsWhenItsPathsAreSound() throws FixtureException {
    // RAIL0 and RAIL1 alternate, so positions 3 and 23 share a rail.
    VirtualFixture fixture = fixture(Defects.NONE);
    fixture.clamp(ON_LOWER, SPLIT);
    Reading reading =
        run(fixture, pair(Kind.LOW_LEVEL, Rings.over(3), Rings.over(23), 0.02, 0.01)).get(0);

    assertThat(ohms(reading)).isBetween(0.06, 0.16);
  }

  @Test
  void openJointReadsOverRange() throws FixtureException {
    Reading reading =
        lowLevel(
            Defects.NONE.with(new Component.Joint(Side.LOWER, Rings.id(3)), new Condition.Open()));

    assertThat(reading).isInstanceOf(Reading.OverRange.class);
  }

  private static Step pair(Kind kind, Contact a, Contact b, double volts, double... amps) {
    return new Step(
        kind,
        List.of(a),
        List.of(b),
        Arrays.stream(amps).mapToObj(Amps::new).toList(),
        new Volts(volts),
        1);
  }
}
