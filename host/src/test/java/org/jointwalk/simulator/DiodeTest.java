package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class DiodeTest {

  private static final Diode SILICON = new Diode(3e-13, Diode.slope(1.12, 296), 7);
  private static final Diode SCHOTTKY = new Diode(2e-7, Diode.slope(1.05, 296), 4);

  @ParameterizedTest
  @ValueSource(doubles = {-3, -0.3, -0.01, 0, 1e-6, 0.02, 0.2, 0.5, 0.7, 1.5, 40})
  void currentFulfilsTheShockleyEquationWithItsSeriesResistance(double volts) {
    for (Diode diode : new Diode[] {SILICON, SCHOTTKY}) {
      double u = diode.inner(volts);
      double amps = diode.amps(u, volts) - Diode.LEAKAGE * volts;

      assertThat(u + amps * diode.series()).isCloseTo(volts, within(1e-12 + 1e-13 * volts));
      assertThat(amps)
          .isCloseTo(
              diode.saturation() * Math.expm1((volts - amps * diode.series()) / diode.slope()),
              within(1e-20 + Math.abs(amps) * 1e-9));
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {-0.5, 0.01, 0.3, 0.55, 0.8})
  void conductanceIsTheSlopeOfTheCurrent(double volts) {
    double h = 1e-6;
    double rise =
        SILICON.amps(SILICON.inner(volts + h), volts + h)
            - SILICON.amps(SILICON.inner(volts - h), volts - h);

    assertThat(SILICON.siemens(SILICON.inner(volts)))
        .isCloseTo(rise / (2 * h), Percentage.withPercentage(1e-3));
  }

  @Test
  void diodeDropsWhatItWasAskedToDrop() {
    Diode diode = Diode.dropping(0.58, 0.224e-3, Diode.slope(1.1, 300), 12);

    assertThat(diode.amps(diode.inner(0.58), 0.58))
        .isCloseTo(0.224e-3, Percentage.withPercentage(1e-6));
  }

  @Test
  void slopeAtRoomTemperatureIsTheThermalVoltage() {
    // CODATA 2018 gives k/q = 8.617333262e-5 V/K exactly enough; 300 K makes 25.852 mV.
    assertThat(Diode.slope(1, 300)).isCloseTo(0.025851999786, within(1e-12));
  }

  @Test
  void threeGeometricCurrentsGiveSeriesResistanceAndSlope() {
    // With I2/I1 = I3/I2 = q: Rs = (V1 - 2 V2 + V3) / (I1 - 2 I2 + I3), and what is left of
    // V2 - V1 is w ln q. The saturation current is far below I1, so the -1 does not matter.
    Network network = new Network();
    int anode = network.node();
    int cathode = network.node();
    network.junction(anode, cathode, SILICON);
    Solver solver = new Solver(network, network.pattern(0, Optional.empty()));
    double i1 = 0.05e-3;
    double q = 4.48;
    double v1 = solver.drive(anode, cathode, i1, 5, 0).volts();
    double v2 = solver.drive(anode, cathode, q * i1, 5, 0).volts();
    double v3 = solver.drive(anode, cathode, q * q * i1, 5, 0).volts();

    double series = (v1 - 2 * v2 + v3) / (i1 * (1 - 2 * q + q * q));
    double slope = (v2 - v1 - series * i1 * (q - 1)) / Math.log(q);

    assertThat(series).isCloseTo(7.0, within(1e-6));
    assertThat(slope).isCloseTo(Diode.slope(1.12, 296), Percentage.withPercentage(1e-5));
  }
}
