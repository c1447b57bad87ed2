package org.jointwalk.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.jointwalk.trial.Readings.over;

import java.util.List;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Question;
import org.jointwalk.job.Question.Need;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Role;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

class StepsTest {

  private static final Capabilities ALL = Instruments.ideal(Switching.MATRIX);

  private final Assembly assembly =
      new SmallMap()
          .net("GND", Role.GROUND)
          .net("S", Role.SIGNAL)
          .pad("G1", "GND")
          .pad("G2", "GND")
          .pad("S", "S")
          .in("interposer-on-lower");

  private Step pair(Capabilities capabilities, Kind kind, String a, String b) {
    return new Steps(assembly, capabilities).pair(kind, over(a), over(b)).orElseThrow();
  }

  @Test
  void theLowerOfRangeAndCeilingIsDriven() {
    Step ground = pair(ALL, Kind.LOW_LEVEL, "G1", "G2");
    assertThat(ground.currents()).containsExactly(new Amps(0.1));
    assertThat(ground.compliance()).isEqualTo(new Volts(0.02));
    assertThat(pair(ALL, Kind.LOW_LEVEL, "G1", "S").currents()).containsExactly(new Amps(0.01));
    Capabilities small =
        Instruments.with(ALL, Kind.LOW_LEVEL, Instruments.range(0.004, 0.01, 0, 0, 0, 0));
    Step weak = pair(small, Kind.LOW_LEVEL, "G1", "S");
    assertThat(weak.currents()).containsExactly(new Amps(0.004));
    assertThat(weak.compliance()).isEqualTo(new Volts(0.01));
  }

  @Test
  void aJunctionIsReadAtTheCurrentsThatTheFixtureCanDrive() {
    assertThat(pair(ALL, Kind.JUNCTION, "G1", "S").currents()).hasSize(3);
    Capabilities half =
        Instruments.with(ALL, Kind.JUNCTION, Instruments.range(0.5e-3, 1, 0, 0, 0, 0));
    assertThat(pair(half, Kind.JUNCTION, "G1", "S").currents())
        .containsExactly(new Amps(0.05e-3), new Amps(0.224e-3));
    Capabilities exact =
        Instruments.with(ALL, Kind.JUNCTION, Instruments.range(1e-3, 1, 0, 0, 0, 0));
    assertThat(pair(exact, Kind.JUNCTION, "G1", "S").currents()).hasSize(3);
    Capabilities tiny =
        Instruments.with(ALL, Kind.JUNCTION, Instruments.range(1e-5, 1, 0, 0, 0, 0));
    assertThat(new Steps(assembly, tiny).pair(Kind.JUNCTION, over("G1"), over("S"))).isEmpty();
  }

  @Test
  void voltageStepsCarryNoCurrent() {
    for (Kind kind :
        List.of(Kind.RESIDUAL, Kind.RESIDUAL_LOADED, Kind.DISCHARGE, Kind.ISOLATION, Kind.CHARGE)) {
      assertThat(pair(ALL, kind, "G1", "S").currents()).isEmpty();
    }
    assertThat(new Steps(assembly, ALL).allOpen().orElseThrow().high()).isEmpty();
  }

  @Test
  void theLowestLevelThatTheFixtureHasReadsAResistance() {
    assertThat(new Steps(assembly, ALL).resistance(over("G1"), over("G2")).orElseThrow().kind())
        .isEqualTo(Kind.LOW_LEVEL);
    Capabilities normal = Instruments.without(ALL, Kind.LOW_LEVEL);
    assertThat(new Steps(assembly, normal).resistance(over("G1"), over("G2")).orElseThrow().kind())
        .isEqualTo(Kind.NORMAL_LEVEL);
    Capabilities none = Instruments.without(ALL, Kind.LOW_LEVEL, Kind.NORMAL_LEVEL, Kind.ALL_OPEN);
    assertThat(new Steps(assembly, none).resistance(over("G1"), over("G2"))).isEmpty();
    assertThat(new Steps(assembly, none).allOpen()).isEmpty();
  }

  @Test
  void noQuestionsAndAQuestionForAnotherSeatingMakeNoSteps() {
    Solve solve = new Solve(assembly, ALL, List.of());
    Plan plan = new Plan(assembly, ALL, assembly.contacts(), solve);
    Estimates nothing = solve.estimates(List.of());
    assertThat(plan.scan(List.of(), nothing, 1).steps()).isEmpty();
    Question again = new Question(Need.RESEAT, List.of(over("S")));
    assertThat(plan.scan(List.of(again), nothing, 1).steps()).isEmpty();
    assertThat(plan.scan(List.of(again), nothing, 1).setUp()).isEqualTo("interposer-on-lower");
  }
}
