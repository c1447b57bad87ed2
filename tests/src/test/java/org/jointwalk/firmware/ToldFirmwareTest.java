package org.jointwalk.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.jointwalk.conform.Outcome;
import org.jointwalk.tool.NeedsTool;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The core in told time before the conformance kit. */
@NeedsTool("make")
@NeedsTool("gcc")
@Timeout(60)
class ToldFirmwareTest {

  @Test
  void soundCoreFailsNoClauseAndMovesItsLidWhenAsked() throws Exception {
    List<Outcome> outcomes = ToldFixture.look(Firmware.built("told"), List.of());

    assertThat(outcomes).filteredOn(o -> o.result() == Outcome.Result.FAILED).isEmpty();
    assertThat(outcomes)
        .filteredOn(o -> o.clause().equals("M86"))
        .singleElement()
        .satisfies(o -> assertThat(o.result()).isEqualTo(Outcome.Result.PASSED));
  }
}
