package org.jointwalk.saltmarsh;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RingTest {

  @ParameterizedTest
  @CsvSource({"300,3", "300,2", "420,3", "600,3", "1200,3", "16,2", "24,3", "8,1"})
  void ringHasThePositionsAskedForAtThePitch(int count, int rows) {
    PadMap map = Ring.of(count, rows, 7);

    assertThat(map.positions()).hasSize(count);
    for (Position p : map.positions().values()) {
      assertThat(nearest(map, p)).isCloseTo(Ring.PITCH_MM, within(1e-9));
    }
  }

  @ParameterizedTest
  @CsvSource({"25,3", "301,2", "500,3", "601,3"})
  void ringThatFillsNoWholeColumnHasEveryPositionOnce(int count, int rows) {
    PadMap map = Ring.of(count, rows, 7);

    assertThat(map.positions()).hasSize(count);
    assertThat(map.positions().values().stream().map(p -> List.of(p.xMm(), p.yMm())))
        .doesNotHaveDuplicates();
  }

  /** Five links a column in two rows, nine in three, sixteen lost at the corners, by counting. */
  @ParameterizedTest
  @CsvSource({"300,2,746", "300,3,884", "600,2,1496", "600,3,1784"})
  void everyPositionHasItsNeighboursAndCornersAreCutOff(int count, int rows, int pairs) {
    List<Position> all = List.copyOf(Ring.of(count, rows, 7).positions().values());

    long near =
        all.stream()
                .mapToLong(
                    a ->
                        all.stream()
                            .filter(b -> !a.equals(b) && a.distanceMm(b) < 1.5 * Ring.PITCH_MM)
                            .count())
                .sum()
            / 2;

    assertThat(near).isEqualTo(pairs);
  }

  @ParameterizedTest
  @CsvSource({"300", "420", "600", "1200"})
  void rolesHaveTheirSharesAtAnySize(int count) {
    PadMap map = Ring.of(count, 3, 7);

    assertThat(share(map, Role.GROUND)).isBetween(0.34, 0.36);
    assertThat(share(map, Role.RAIL)).isBetween(0.14, 0.16);
    assertThat(share(map, Role.UNUSED)).isBetween(0.04, 0.06);
  }

  @Test
  void sameArgumentsGiveTheSameMapAndAnotherSeedAnother() {
    assertThat(Ring.of(300, 3, 7)).isEqualTo(Ring.of(300, 3, 7));
    assertThat(Ring.of(300, 3, 7).positions()).isNotEqualTo(Ring.of(300, 3, 8).positions());
  }

  @Test
  void ringTooSmallForFourSidesIsRefused() {
    assertThatThrownBy(() -> Ring.of(20, 3, 7))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("20 positions in 3 rows");
  }

  private static double share(PadMap map, Role role) {
    long pads =
        map.positions().keySet().stream()
            .filter(id -> map.netAt(id, Side.LOWER).role() == role)
            .count();
    return pads / (double) map.positions().size();
  }

  private static double nearest(PadMap map, Position p) {
    return map.positions().values().stream()
        .filter(other -> !other.equals(p))
        .mapToDouble(p::distanceMm)
        .min()
        .orElseThrow();
  }
}
