package org.jointwalk.spice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.assertj.core.data.Percentage;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.tool.NeedsTool;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The fixture that the passes are judged by, against what can be said by hand. */
@NeedsTool("ngspice")
class SpiceFixtureTest {

  /** Exact by definition: the International System of Units, 9th edition (BIPM 2019). */
  private static final double BOLTZMANN = 1.380649e-23;

  private static final double ELEMENTARY_CHARGE = 1.602176634e-19;

  private static final PadMap MAP = Ring.of(60, 3, 1);
  private static final List<Amps> CURRENTS =
      List.of(new Amps(5e-5), new Amps(2.236068e-4), new Amps(1e-3));
  private static final Contact GROUND = over("N059");

  /** REED1 of the lower board: one junction from ground, one to its rail, nothing else. */
  private static final Contact LONE = over("N057");

  @TempDir private Path folder = Path.of("");

  private static Contact over(String position) {
    return new Contact.Pad(Plate.OVER, position);
  }

  private Reading read(Defects defects, double celsius, FixtureMap fixtureMap, Step step) {
    SetUp setUp = SetUp.named("lower-board").orElseThrow();
    List<Reading> readings = new ArrayList<>();
    new SpiceFixture(new Ngspice(folder), new Handset(MAP, defects, 3, celsius), setUp, fixtureMap)
        .run(Scan.of(setUp.name(), List.of(step)), b -> readings.addAll(b.readings()));
    return readings.get(0);
  }

  private static Step step(Kind kind, Contact a, Contact b, List<Amps> currents, double volts) {
    return new Step(kind, List.of(a), List.of(b), currents, new Volts(volts), 1);
  }

  /**
   * At three currents each geometric to the next V1 - 2 V2 + V3 = Rs (I1 - 2 I2 + I3) and V3 - V1 =
   * n k T / q ln(I3 / I1) + Rs (I3 - I1) hold for a junction far above its saturation.
   */
  @ParameterizedTest
  @ValueSource(doubles = {0, 27, 45})
  void threeCurrentsGiveTheThermalVoltageAndTheResistanceOfTheCard(double celsius) {
    Reading reading =
        read(
            Defects.NONE,
            celsius,
            Bench.exact(MAP),
            step(Kind.JUNCTION, GROUND, LONE, CURRENTS, 1));

    assertThat(reading).isInstanceOf(Reading.Measured.class);
    List<Reading.Point> p = ((Reading.Measured) reading).points();
    double i1 = p.get(0).amps();
    double i3 = p.get(2).amps();
    double ohms =
        (p.get(0).volts() - 2 * p.get(1).volts() + p.get(2).volts())
            / (i1 - 2 * p.get(1).amps() + i3);
    double slope = (p.get(2).volts() - p.get(0).volts() - ohms * (i3 - i1)) / Math.log(i3 / i1);
    assertThat(slope)
        .isCloseTo(
            Deck.IDEALITY * BOLTZMANN * (celsius + 273.15) / ELEMENTARY_CHARGE,
            Percentage.withPercentage(0.05));
    // The card's 6 ohm over the area of this die, and a few hundredths of copper.
    assertThat(ohms).isCloseTo(Deck.SERIES_OHMS, within(1.6));
  }

  @Test
  void twoWiresReadEverySwitchContactAndTraceOnce() {
    FixtureMap photo = FixtureMaps.photoRelay(MAP);
    Reading reading =
        read(
            Defects.NONE,
            27,
            photo,
            step(Kind.LOW_LEVEL, GROUND, over("N055"), List.of(new Amps(0.012)), 0.02));

    Reading.Point point = ((Reading.Measured) reading).points().get(0);
    double spread =
        2 * (photo.capabilities().path().sd().value() + photo.capabilities().probes().sd().value());
    // Two switches of 0.25 ohm, two contacts of 0.02 ohm, two traces of half a milliohm.
    assertThat(point.volts() / point.amps()).isCloseTo(0.541, within(spread));
    assertThat(point.amps()).isBetween(0.008, 0.012);
  }

  @Test
  void sourceThatRunsOutOfVoltageSaysHowFarItCame() {
    Defects high = Defects.NONE.with(new Component.Pad(Side.LOWER, "N057"), Faults.high(1000));
    Reading reading =
        read(high, 27, Bench.exact(MAP), step(Kind.JUNCTION, GROUND, LONE, CURRENTS, 1));

    assertThat(reading).isInstanceOf(Reading.OverRange.class);
    List<Reading.Point> p = ((Reading.OverRange) reading).points();
    assertThat(p.get(0).amps()).isEqualTo(5e-5);
    assertThat(p.get(2).volts()).isCloseTo(1, within(1e-3));
    // About 0.7 V of the volt fall on the junction, the rest on the kilohm.
    assertThat(p.get(2).amps()).isBetween(2.5e-4, 4e-4);
  }

  @Test
  void tornPadLeavesTheSourceAtItsVoltage() {
    Defects torn = Defects.NONE.with(new Component.Pad(Side.LOWER, "N057"), Faults.OPEN);
    Reading reading =
        read(torn, 27, Bench.exact(MAP), step(Kind.JUNCTION, GROUND, LONE, CURRENTS, 1));

    assertThat(reading).isInstanceOf(Reading.OverRange.class);
    assertThat(((Reading.OverRange) reading).points())
        .allSatisfy(
            point -> {
              assertThat(point.volts()).isCloseTo(1, within(1e-3));
              assertThat(point.amps()).isCloseTo(0, within(1e-8));
            });
  }
}
