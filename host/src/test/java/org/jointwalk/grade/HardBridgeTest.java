package org.jointwalk.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Findings;
import org.jointwalk.job.PairEstimate;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.quantity.Volts;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.SetUp;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class HardBridgeTest {

  private static final PadMap MAP = Ring.of(60, 3, 1);
  private static final Contact A = new Contact.Pad(Plate.OVER, "N002");
  private static final Contact B = new Contact.Pad(Plate.OVER, "N003");

  private static PathEstimate conducts(Contact contact) {
    return new PathEstimate(
        1,
        contact,
        PathEstimate.Evidence.CONDUCTS,
        Optional.empty(),
        Optional.empty(),
        false,
        List.of(),
        true);
  }

  /** What is found when the isolation step between two lone signals reads this. */
  private static List<BridgeFinding> found(FixtureMap fixture, double volts, double amps) {
    Assembly assembly =
        new Assembly(MAP, MAP.interposers().get(0), SetUp.named("lower-board").orElseThrow());
    Step step = new Step(Kind.ISOLATION, List.of(A), List.of(B), List.of(), new Volts(0.05), 1);
    Reading.Measured reading = new Reading.Measured(0, List.of(new Reading.Point(volts, amps)));
    PairEstimate pair =
        new PairEstimate(1, step, new Accuracy(fixture.capabilities()).siemens(step, reading), 0);
    Estimates estimates =
        new Estimates(
            new ArrayList<>(List.of(conducts(A), conducts(B))),
            List.of(pair),
            List.of(),
            List.of());
    Findings findings =
        new Grading(assembly, fixture.capabilities(), fixture.contacts()).findings(estimates);
    return findings.bridges();
  }

  /** The source is at its 1 mA; sensed behind the probes a hard bridge leaves a few microvolt. */
  @ParameterizedTest
  @CsvSource({"100e-6", "60e-6", "40e-6", "10e-6"})
  void hardBridgeWhoseVoltageDrownsInNoiseIsFound(double volts) {
    assertThat(found(FixtureMaps.relayMatrix(MAP), volts, 1e-3)).hasSize(1);
    assertThat(found(FixtureMaps.fourBus(MAP), volts, 1e-3)).hasSize(1);
  }

  /** Up to 10 kilohm is called a bridge when a board is there; that is 5 microampere at 50 mV. */
  @ParameterizedTest
  @CsvSource({"1e-3, true", "6.5e-6, true", "4e-6, false", "1e-7, false", "-1e-6, false"})
  void softBridgeIsFoundUpToTheThreshold(double amps, boolean bridge) {
    assertThat(found(FixtureMaps.photoRelay(MAP), 0.05, amps)).hasSize(bridge ? 1 : 0);
    assertThat(found(FixtureMaps.relayMatrix(MAP), 0.05, amps)).hasSize(bridge ? 1 : 0);
  }
}
