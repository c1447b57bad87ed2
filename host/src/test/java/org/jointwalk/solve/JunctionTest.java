package org.jointwalk.solve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.jointwalk.trial.Readings.over;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Measurement;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.trial.Readings;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

/** Currents of 0.05, 0.224 and 1 mA from a source of 1 V. */
class JunctionTest {

  private static final Assembly ASSEMBLY =
      new SmallMap()
          .net("GND", Role.GROUND)
          .net("S", Role.SIGNAL)
          .pad("G", "GND")
          .pad("S", "S")
          .in("lower-board");

  private static final Step STEP = Readings.step(Kind.JUNCTION, over("G"), over("S"));

  private static Measurement measured(double... voltsAndAmps) {
    return new Measurement(1, STEP, new Reading.Measured(0, points(voltsAndAmps)));
  }

  private static Measurement stopped(double... voltsAndAmps) {
    return new Measurement(1, STEP, new Reading.OverRange(0, points(voltsAndAmps)));
  }

  private static List<Reading.Point> points(double... voltsAndAmps) {
    List<Reading.Point> points = new ArrayList<>();
    for (int i = 0; i < voltsAndAmps.length; i += 2) {
      points.add(new Reading.Point(voltsAndAmps[i], voltsAndAmps[i + 1]));
    }
    return points;
  }

  private static Reference.Drop reference(double... volts) {
    List<Volts> list = new ArrayList<>();
    for (double v : volts) {
      list.add(new Volts(v));
    }
    return new Reference.Drop(
        new NetId(Side.LOWER, "S"),
        Readings.JUNCTION.subList(0, volts.length),
        list,
        new Volts(0),
        new Volts(0),
        1);
  }

  @Test
  void eightyPercentOfTheSmallestCurrentBelowTheLimitOfTheSourceIsAPath() {
    assertThat(Junction.conducts(STEP, stopped(0.5, 0.041e-3).reading())).isTrue();
    assertThat(Junction.conducts(STEP, stopped(0.5, 0.039e-3).reading())).isFalse();
    assertThat(Junction.conducts(STEP, stopped(0.979, 0.05e-3).reading())).isTrue();
    assertThat(Junction.conducts(STEP, stopped(0.981, 0.05e-3).reading())).isFalse();
    assertThat(Junction.conducts(STEP, stopped().reading())).isFalse();
    assertThat(Junction.conducts(STEP, new Reading.Refused(0, "no"))).isFalse();
    Step low = new Step(Kind.JUNCTION, STEP.high(), STEP.low(), STEP.currents(), new Volts(0.5), 1);
    assertThat(Junction.conducts(low, stopped(0.495, 0.05e-3).reading())).isFalse();
  }

  @Test
  void everyCurrentAndTheRepeatedFirstMakeAJunction() {
    Junction j =
        Junction.of(measured(0.5, 5e-5, 0.55, 2.24e-4, 0.6, 1e-3, 0.502, 5e-5), ASSEMBLY)
            .orElseThrow();
    assertThat(j.volts().get(0)).isCloseTo(0.501, within(1e-12));
    assertThat(j.volts().subList(1, 3)).containsExactly(0.55, 0.6);
    assertThat(j.contact()).isEqualTo(over("S"));
    assertThat(j.span()).isCloseTo(0.95e-3, within(1e-12));
    assertThat(Junction.of(measured(0.5, 5e-5, 0.55, 2.24e-4, 0.6, 1e-3), ASSEMBLY)).isEmpty();
    assertThat(Junction.of(stopped(0.5, 5e-5, 0.55, 2.24e-4, 0.6, 1e-3, 0.5, 5e-5), ASSEMBLY))
        .isEmpty();
  }

  @Test
  void aSeriesResistanceGrowsAndBendsTheDropAlike() {
    double[] junction = {0.5, 0.55, 0.61};
    double[] amps = {0.05e-3, 0.224e-3, 1e-3};
    double ohms = 7;
    Junction j =
        Junction.of(
                measured(
                    junction[0] + ohms * amps[0],
                    amps[0],
                    junction[1] + ohms * amps[1],
                    amps[1],
                    junction[2] + ohms * amps[2],
                    amps[2],
                    junction[0] + ohms * amps[0],
                    amps[0]),
                ASSEMBLY)
            .orElseThrow();
    Reference.Drop reference = reference(junction);
    assertThat(j.growthAbove(reference)).isCloseTo(7 * 0.95e-3, within(1e-12));
    assertThat(j.bendAbove(reference).orElseThrow()).isCloseTo(7, within(1e-9));
    // Ten millivolt less at the lowest current: growth, and a bend the other way.
    Reference.Drop higher = reference(junction[0] + 0.01, junction[1], junction[2]);
    assertThat(j.growthAbove(higher)).isCloseTo(7 * 0.95e-3 + 0.01, within(1e-12));
    assertThat(j.bendAbove(higher).orElseThrow())
        .isCloseTo(7 - 0.01 / (1e-3 + 0.05e-3 - 2 * 0.224e-3), within(1e-9));
    assertThat(j.bendAbove(reference(junction[0], junction[1] + 0.01, junction[2])).orElseThrow())
        .isCloseTo(7 + 0.02 / (1e-3 + 0.05e-3 - 2 * 0.224e-3), within(1e-9));
  }

  @Test
  void aBendNeedsThreeCurrentsOfWhichTheMiddleOneIsLow() {
    Junction two =
        new Junction(
            over("S"),
            ASSEMBLY.net(over("S")).orElseThrow(),
            Readings.JUNCTION.subList(0, 2),
            List.of(0.5, 0.6));
    assertThat(two.bendAbove(reference(0.5, 0.6))).isEmpty();
    Junction even =
        new Junction(
            over("S"),
            ASSEMBLY.net(over("S")).orElseThrow(),
            List.of(new Amps(1e-3), new Amps(2e-3), new Amps(3e-3)),
            List.of(0.5, 0.6, 0.7));
    assertThat(even.bendAbove(reference(0.5, 0.6, 0.7))).isEmpty();
  }

  @Test
  void aSourceStallsWhereItReachesItsVoltageBeforeItsCurrent() {
    assertThat(Junction.stall(stopped(0.5, 5e-5, 0.7, 2.24e-4, 1.0, 0.6e-3, 0.5, 5e-5)))
        .contains(new Reading.Point(1.0, 0.6e-3));
    assertThat(Junction.stall(stopped(0.6, 5e-5, 1.0, 1.5e-4, 1.0, 1.5e-4, 0.6, 5e-5)))
        .contains(new Reading.Point(1.0, 1.5e-4));
    // The same readings called measured, one that never started, and ones that did not stall.
    assertThat(Junction.stall(measured(0.5, 5e-5, 0.7, 2.24e-4, 1.0, 0.6e-3, 0.5, 5e-5))).isEmpty();
    assertThat(Junction.stall(stopped(1.0, 1e-5, 1.0, 1e-5, 1.0, 1e-5, 1.0, 1e-5))).isEmpty();
    assertThat(Junction.stall(stopped(0.5, 5e-5, 0.7, 2.24e-4, 0.8, 1e-3, 0.5, 5e-5))).isEmpty();
    assertThat(Junction.stall(stopped(0.5, 5e-5, 0.7, 2.24e-4, 0.97, 0.6e-3, 0.5, 5e-5))).isEmpty();
    assertThat(Junction.stall(stopped(0.5, 5e-5, 0.7, 2.24e-4, 1.0, 4e-5, 0.5, 5e-5))).isEmpty();
    assertThat(Junction.stall(stopped(0.5, 5e-5))).isEmpty();
    // At the edges: the lowest current, the one asked for, and a voltage two percent below.
    assertThat(Junction.stall(stopped(0.5, 5e-5, 1.0, 5e-5, 1.0, 5e-5, 0.5, 5e-5))).isEmpty();
    assertThat(Junction.stall(stopped(0.5, 5e-5, 1.0, 0.224e-3, 1.0, 1e-3, 0.5, 5e-5))).isEmpty();
    assertThat(Junction.stall(stopped(0.5, 5e-5, 0.7, 2.24e-4, 0.98, 0.6e-3, 0.5, 5e-5)))
        .isPresent();
    Step half =
        new Step(Kind.JUNCTION, STEP.high(), STEP.low(), STEP.currents(), new Volts(0.5), 1);
    Measurement early =
        new Measurement(
            1,
            half,
            new Reading.OverRange(0, points(0.4, 5e-5, 0.495, 1.5e-4, 0.495, 1.5e-4, 0.4, 5e-5)));
    assertThat(Junction.stall(early)).contains(new Reading.Point(0.495, 1.5e-4));
  }
}
