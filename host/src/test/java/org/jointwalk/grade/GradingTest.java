package org.jointwalk.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.jointwalk.trial.Readings.over;
import static org.jointwalk.trial.Readings.point;

import java.util.List;
import java.util.Set;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.DropShift;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.PairEstimate;
import org.jointwalk.job.Residual;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.Readings;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

class GradingTest {

  private static SmallMap map() {
    return new SmallMap()
        .net("GND", Role.GROUND)
        .net("S", Role.SIGNAL)
        .net("T", Role.SIGNAL)
        .pad("G1", "GND")
        .pad("G2", "GND")
        .pad("S", "S")
        .pad("T", "T")
        .point("PS", Side.LOWER, "S")
        .point("PU", Side.UPPER, "S");
  }

  private static Grading grading(String setUp) {
    Assembly assembly = map().in(setUp);
    return new Grading(assembly, Instruments.ideal(Switching.MULTIPLEXER), assembly.contacts());
  }

  private static DropShift shift(Contact contact, String net, double volts, double u) {
    return new DropShift(1, contact, new NetId(Side.LOWER, net), Estimate.known(volts, u));
  }

  private static Findings findings(String setUp, DropShift... shifts) {
    return grading(setUp).findings(new Estimates(List.of(), List.of(), List.of(), List.of(shifts)));
  }

  @Test
  void everyPositionHasOneFindingInMapOrderAndTheRuleIsNamed() {
    Findings findings = findings("interposer-on-lower");
    assertThat(findings.positions())
        .extracting(f -> f.position())
        .containsExactly("G1", "G2", "S", "T");
    assertThat(findings.counts().values().stream().mapToInt(n -> n).sum()).isEqualTo(4);
    assertThat(findings.rule()).isEqualTo(PathRule.ID);
  }

  @Test
  void aDropMoreThanSixtyMillivoltAwayIsAnotherCircuit() {
    assertThat(findings("lower-board", shift(over("S"), "S", 0.0601, 0)).boards())
        .extracting(BoardFinding::fault)
        .containsExactly(BoardFinding.Fault.DIFFERENT);
    assertThat(findings("lower-board", shift(over("S"), "S", -0.0601, 0)).boards()).hasSize(1);
    assertThat(findings("lower-board", shift(over("S"), "S", 0.0599, 0)).boards()).isEmpty();
    assertThat(findings("lower-board", shift(over("S"), "S", 0.084, 0.005)).boards()).isEmpty();
    BoardFinding found =
        findings("lower-board", shift(over("S"), "S", 0.086, 0.005)).boards().get(0);
    assertThat(found.net()).isEqualTo(new NetId(Side.LOWER, "S"));
    assertThat(found.reason()).contains("S drops +86 mV");
  }

  @Test
  void aNetIsNamedOnce() {
    assertThat(
            findings(
                    "lower-board",
                    shift(over("S"), "S", 0.1, 0),
                    shift(point("PS"), "S", 0.1, 0),
                    shift(over("T"), "T", 0.1, 0))
                .boards())
        .hasSize(2);
  }

  /** The other board's junction lies beside it, and lowers a drop by design. */
  @Test
  void theJoinedStackIsNotComparedWithABoardAlone() {
    assertThat(findings("joined", shift(point("PS"), "S", -0.2, 0)).boards()).isEmpty();
  }

  @Test
  void aDropAtABridgeIsNotASecondFault() {
    PairEstimate pair =
        new PairEstimate(
            1, Readings.step(Kind.ISOLATION, over("S"), over("T")), Estimate.known(1, 0.01), 0);
    Findings findings =
        grading("lower-board")
            .findings(
                new Estimates(
                    List.of(Made.conducts(1, "S"), Made.conducts(1, "T")),
                    List.of(pair),
                    List.of(Made.calm(1, "S")),
                    List.of(shift(over("S"), "S", -0.2, 0))));
    assertThat(findings.boards()).isEmpty();
    assertThat(findings.graded(Grade.BRIDGED)).hasSize(2);
    assertThat(findings.graded(Grade.BRIDGED).get(0).confirmed()).isFalse();
    assertThat(findings.graded(Grade.BRIDGED).get(0).seatings()).isEqualTo(1);
  }

  @Test
  void dangerAndRemarksAreThoseOfTheVoltages() {
    Estimates live =
        new Estimates(
            List.of(), List.of(), List.of(new Residual(1, over("S"), 1.1, 1.0)), List.of());
    assertThat(grading("lower-board").danger(live)).isPresent();
    assertThat(grading("lower-board").remarks(live)).isEmpty();
    Estimates light =
        new Estimates(List.of(), List.of(), List.of(new Residual(1, over("S"), 0.3, 0)), List.of());
    assertThat(grading("lower-board").danger(light)).isEmpty();
    assertThat(grading("lower-board").remarks(light)).hasSize(1);
    assertThat(grading("lower-board").open(light, 1, Set.of())).isNotEmpty();
  }
}
