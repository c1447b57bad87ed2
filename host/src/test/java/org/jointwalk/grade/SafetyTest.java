package org.jointwalk.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.jointwalk.trial.Readings.over;

import java.util.Arrays;
import java.util.List;
import org.jointwalk.job.Residual;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Role;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

class SafetyTest {

  private static final double UNREAD = Double.NaN;

  private final Assembly assembly =
      new SmallMap()
          .net("GND", Role.GROUND)
          .net("VCC", Role.RAIL)
          .net("VDD", Role.RAIL)
          .pad("G", "GND")
          .pad("V", "VCC")
          .pad("D", "VDD")
          .in("interposer-on-lower");

  private static Residual volts(int seating, String id, double volts, double loaded) {
    return new Residual(seating, over(id), volts, loaded);
  }

  private boolean isDangerous(Residual... residuals) {
    return Safety.danger(assembly, Arrays.asList(residuals)).isPresent();
  }

  private static boolean isUneasy(Residual... residuals) {
    return !Safety.uneasy(Arrays.asList(residuals)).isEmpty();
  }

  private boolean isRemarked(Residual... residuals) {
    return !Safety.remarks(assembly, Arrays.asList(residuals)).isEmpty();
  }

  @Test
  void fiveMillivoltMayBeMeasured() {
    for (double volts : new double[] {0, 0.005, -0.005}) {
      assertThat(isUneasy(volts(1, "V", volts, volts))).isFalse();
      assertThat(isUneasy(volts(1, "V", volts, UNREAD))).isFalse();
      assertThat(isDangerous(volts(1, "V", volts, volts))).isFalse();
      assertThat(isRemarked(volts(1, "V", volts, volts))).isFalse();
    }
  }

  @Test
  void upToFiftyMillivoltIsDischargedAndReadAgain() {
    for (double volts : new double[] {0.0051, 0.05, -0.0051, -0.05}) {
      assertThat(isUneasy(volts(1, "V", volts, volts))).isTrue();
      assertThat(isDangerous(volts(1, "V", volts, volts))).isFalse();
    }
    assertThat(Safety.uneasy(List.of(volts(1, "V", 0.02, 0.02), volts(1, "D", 0, 0))))
        .containsExactly(over("V"));
    assertThat(isUneasy(volts(1, "V", 0.02, 0.02), volts(1, "V", 0.001, 0.001))).isFalse();
  }

  @Test
  void moreThanFiftyMillivoltUnderLoadIsALiveBoard() {
    for (double volts : new double[] {0.0501, 1.1, -0.0501}) {
      assertThat(isDangerous(volts(1, "V", volts, 0.0051))).isTrue();
      assertThat(isDangerous(volts(1, "V", volts, -0.0051))).isTrue();
    }
    assertThat(Safety.danger(assembly, List.of(volts(1, "V", 1.1, 1.0))))
        .hasValueSatisfying(
            words ->
                assertThat(words)
                    .contains("VCC carries 1.10 V")
                    .contains("battery")
                    .contains("never with tweezers")
                    .doesNotContain("comes back"));
  }

  @Test
  void aVoltageThatALoadTakesAwayIsLight() {
    Residual light = volts(1, "V", 0.3, 0.005);
    assertThat(isDangerous(light)).isFalse();
    assertThat(isUneasy(light)).isFalse();
    assertThat(Safety.remarks(assembly, List.of(light)))
        .containsExactly(
            "VCC shows 0.30 V that a light load takes away: light or leakage; close the lid");
    assertThat(isRemarked(volts(1, "V", 0.05, 0.005))).isFalse();
    assertThat(isRemarked(volts(1, "V", 0.3, 0.0051))).isFalse();
  }

  @Test
  void aVoltageThatComesBackAfterEachDischargeStopsThePass() {
    Residual some = volts(1, "V", 0.02, 0.02);
    assertThat(isDangerous(some, some)).isFalse();
    assertThat(isUneasy(some, some)).isTrue();
    assertThat(isDangerous(some, some, some)).isTrue();
    assertThat(isUneasy(some, some, some)).isFalse();
    assertThat(Safety.danger(assembly, List.of(some, some, some)))
        .hasValueSatisfying(
            words -> assertThat(words).contains("20 mV and comes back after each discharge"));
    assertThat(isDangerous(some, some, volts(1, "V", 0.02, 0.005))).isFalse();
  }

  @Test
  void aVoltageThatWasNeverReadUnderLoadIsNotTakenForLight() {
    Residual unread = volts(1, "V", 3.7, UNREAD);
    assertThat(isDangerous(unread)).isFalse();
    assertThat(isUneasy(unread)).isTrue();
    assertThat(isDangerous(unread, unread, unread)).isTrue();
    assertThat(isRemarked(unread)).isFalse();
  }

  @Test
  void triesAreCountedWithinOneSeatingAndTheLastSeatingCounts() {
    Residual first = volts(1, "V", 0.02, 0.02);
    Residual second = volts(2, "V", 0.02, 0.02);
    assertThat(isDangerous(first, first, second)).isFalse();
    assertThat(isDangerous(first, second, second)).isFalse();
    assertThat(isDangerous(second, second, second)).isTrue();
    assertThat(isDangerous(volts(1, "V", 1, 1), volts(2, "V", 0, 0))).isFalse();
  }
}
