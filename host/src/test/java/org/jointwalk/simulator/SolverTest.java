package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SolverTest {

  private static final Diode SILICON = new Diode(1e-13, Diode.slope(1.1, 296), 6);

  private final Network network = new Network();

  private Solver solver() {
    return new Solver(network, network.pattern(0, Optional.empty()));
  }

  @Test
  void sourceHoldsItsCurrentUntilItsVoltageIsUsedUp() {
    int a = network.node();
    int b = network.node();
    network.resistor(a, b, 50);
    Solver solver = solver();

    assertThat(solver.drive(a, b, 0.01, 1, 10)).isEqualTo(new Solver.Flow(0.01, 0.5));
    assertThat(solver.drive(a, b, 0.1, 1, 10).amps()).isCloseTo(1.0 / 60, within(1e-15));
  }

  @Test
  void sourceThatMeetsNothingShowsItsOpenVoltage() {
    int a = network.node();
    int b = network.node();

    assertThat(solver().drive(a, b, 0.01, 0.02, 1)).isEqualTo(new Solver.Flow(0, 0.02));
  }

  @Test
  void junctionsSideBySideShareTheirCurrent() {
    int a = network.node();
    int b = network.node();
    network.junction(a, b, SILICON);
    network.junction(a, b, SILICON);
    double shared = solver().drive(a, b, 2e-3, 5, 0).volts();

    assertThat(SILICON.amps(SILICON.inner(shared), shared))
        .isCloseTo(1e-3, Percentage.withPercentage(1e-7));
  }

  @Test
  void sourceLimitedBelowTheDropLeavesAJunctionAlmostOff() {
    int a = network.node();
    int b = network.node();
    network.junction(a, b, SILICON);
    Solver.Flow flow = solver().drive(a, b, 1e-3, 0.2, 0);

    assertThat(flow.volts()).isCloseTo(0.2, within(1e-12));
    assertThat(flow.amps())
        .isCloseTo(SILICON.amps(SILICON.inner(0.2), 0.2), Percentage.withPercentage(1e-6));
  }

  @Test
  void releasedNetworkIsAsItWasBefore() {
    int a = network.node();
    int b = network.node();
    network.junction(a, b, SILICON);
    Solver solver = solver();
    double before = solver.ohms(a, b);
    solver.drive(a, b, 1e-3, 5, 0);
    solver.release();

    assertThat(solver.ohms(a, b)).isEqualTo(before);
  }

  @Test
  void storedVoltageIsSeenThroughItsResistanceAndItsLoad() {
    int ground = network.node();
    int rail = network.node();
    network.source(ground, rail, 3, 100);
    network.resistor(rail, ground, 200);

    assertThat(solver().volts(rail, ground)).isCloseTo(2.0, within(1e-12));
  }

  @Test
  void storedVoltageTurnsJunctionsOnWithoutOurDoing() {
    int ground = network.node();
    int rail = network.node();
    network.source(ground, rail, 3, 1000);
    network.junction(rail, ground, SILICON);
    double volts = solver().volts(rail, ground);

    assertThat(SILICON.amps(SILICON.inner(volts), volts))
        .isCloseTo((3 - volts) / 1000, Percentage.withPercentage(1e-8));
  }

  /** A current gives a voltage; that voltage gives the current, through any mix of junctions. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
  void drivenByCurrentOrByVoltageANetworkIsTheSame(long seed) {
    Draw draw = new Draw(seed);
    Graph graph = Graph.random(12, 6, 6, draw);
    for (int i = 0; i < graph.nodes(); i++) {
      network.node();
    }
    graph.edges().forEach(e -> network.resistor(e.a(), e.b(), 1000 * e.ohms()));
    int[] anodes = new int[8];
    int[] cathodes = new int[8];
    for (int k = 0; k < 8; k++) {
      anodes[k] = (int) draw.at("anode").at(k).uniform(0, 12);
      cathodes[k] = (anodes[k] + 1 + (int) draw.at("cathode").at(k).uniform(0, 11)) % 12;
      network.junction(anodes[k], cathodes[k], SILICON);
    }
    int probe = network.node();
    network.resistor(probe, 3, 1e-3);
    Solver solver = solver();
    double amps = 2e-3;
    double volts = solver.drive(probe, 9, amps, 1000, 0).volts();

    solver.release();
    Solver.Flow driven = solver.drive(probe, 9, 1, volts, 0);

    assertThat(driven.amps()).isCloseTo(amps, Percentage.withPercentage(1e-6));
    assertThat(driven.volts()).isCloseTo(volts, Percentage.withPercentage(1e-8));
  }

  @Test
  void copyWithAnotherConductorLeavesTheFirstAlone() {
    int a = network.node();
    int b = network.node();
    int edge = network.resistor(a, b, 10);
    Solver solver = solver();
    Solver copy = solver.copy();
    copy.set(edge, 1);

    assertThat(solver.ohms(a, b)).isEqualTo(10);
    assertThat(copy.ohms(a, b)).isEqualTo(1);
  }
}
