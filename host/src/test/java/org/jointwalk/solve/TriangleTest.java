package org.jointwalk.solve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Contribution;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Volts;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Plate;
import org.junit.jupiter.api.Test;

/**
 * The estimator of paths from readings of pairs. Outside source: the three-point method for earth
 * electrodes, R_a = (R_ab + R_ac - R_bc) / 2, as IEEE Std 81 gives it (value from memory).
 */
class TriangleTest {

  private static final Capabilities FOUR_BUS =
      FixtureMaps.fourBus(SaltmarshS2.unlearned()).capabilities();
  private static final Capabilities PHOTO =
      FixtureMaps.photoRelay(SaltmarshS2.unlearned()).capabilities();

  private static Contact pad(int number) {
    return new Contact.Pad(Plate.OVER, "N" + number);
  }

  private static Step step(int a, int b) {
    return new Step(
        Kind.LOW_LEVEL,
        List.of(pad(a)),
        List.of(pad(b)),
        List.of(new Amps(0.04)),
        new Volts(0.02),
        1);
  }

  private static Reading reading(double ohms) {
    return new Reading.Measured(0, List.of(new Reading.Point(ohms * 0.04, 0.04)));
  }

  private static PathEstimate of(List<PathEstimate> paths, int number) {
    return paths.stream().filter(p -> p.contact().equals(pad(number))).findFirst().orElseThrow();
  }

  @Test
  void threeElectrodesFollowTheThreePointMethod() {
    // Electrodes of 5, 10 and 20 ohm: pairs of 15, 25 and 30 ohm.
    Group group = new Group(new Accuracy(FOUR_BUS), FOUR_BUS);
    group.add(step(1, 2), reading(15));
    group.add(step(1, 3), reading(25));
    group.add(step(2, 3), reading(30));
    List<PathEstimate> paths = group.solve(1);
    assertThat(of(paths, 1).ohms().orElseThrow().value())
        .isCloseTo((15 + 25 - 30) / 2.0, within(1e-9));
    assertThat(of(paths, 2).ohms().orElseThrow().value()).isCloseTo(10, within(1e-9));
    assertThat(of(paths, 3).ohms().orElseThrow().value()).isCloseTo(20, within(1e-9));
  }

  /**
   * (y_12 + y_13 - y_23) / 2: what each reading has of its own leaves three quarters of its
   * variance, what all three share leaves half of its effect.
   */
  @Test
  void aTriangleHasThreeQuartersOfTheVarianceOfOneReadingAndHalfOfWhatAllShare() {
    Accuracy accuracy = new Accuracy(FOUR_BUS);
    Group group = new Group(accuracy, FOUR_BUS);
    group.add(step(1, 2), reading(1));
    group.add(step(1, 3), reading(1));
    group.add(step(2, 3), reading(1));
    Estimate single = accuracy.ohms(step(1, 2), (Reading.Measured) reading(1));
    Estimate solved = of(group.solve(1), 1).ohms().orElseThrow();
    for (Contribution line : solved.budget()) {
      boolean shared = line.source().endsWith("of the range");
      double one =
          single.budget().stream()
              .filter(c -> c.source().equals(line.source()))
              .findFirst()
              .orElseThrow()
              .u();
      assertThat(line.u())
          .as(line.source())
          .isCloseTo(one * (shared ? 0.5 : Math.sqrt(0.75)), within(1e-9 * one));
    }
    assertThat(solved.budget()).hasSameSizeAs(single.budget());
  }

  @Test
  void twoPadsGiveOnlyTheirSum() {
    Group group = new Group(new Accuracy(FOUR_BUS), FOUR_BUS);
    group.add(step(1, 2), reading(0.5));
    PathEstimate path = of(group.solve(1), 1);
    assertThat(path.sharedWith()).contains(pad(2));
    assertThat(path.ohms().orElseThrow().value()).isCloseTo(0.5, within(1e-9));
  }

  @Test
  void aRingOfFourResolvesNothingSingly() {
    Group group = new Group(new Accuracy(FOUR_BUS), FOUR_BUS);
    for (int i = 0; i < 4; i++) {
      group.add(step(i, (i + 1) % 4), reading(0.3));
    }
    assertThat(group.solve(1)).allMatch(p -> p.sharedWith().isPresent());
  }

  @Test
  void aPadWithoutPathIsOpenOnlyAgainstAProvenPartner() {
    Group group = new Group(new Accuracy(FOUR_BUS), FOUR_BUS);
    group.add(step(1, 2), new Reading.OverRange(0, List.of()));
    group.add(step(1, 3), new Reading.OverRange(0, List.of()));
    assertThat(of(group.solve(1), 1).evidence()).isEqualTo(PathEstimate.Evidence.NO_PROVEN_PARTNER);
    group.add(step(2, 4), reading(0.01));
    assertThat(of(group.solve(1), 1).evidence()).isEqualTo(PathEstimate.Evidence.NO_PATH);
    assertThat(of(group.solve(1), 3).evidence()).isEqualTo(PathEstimate.Evidence.NO_PROVEN_PARTNER);
  }

  @Test
  void theStatedUncertaintyIsThatOfManyDraws() {
    RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(11);
    Range range = FOUR_BUS.range(Kind.LOW_LEVEL).orElseThrow();
    Accuracy accuracy = new Accuracy(FOUR_BUS);
    int[][] edges = {{1, 2}, {1, 3}, {2, 3}, {2, 4}, {3, 4}};
    double sum = 0;
    double squares = 0;
    double stated = 0;
    int draws = 4000;
    for (int d = 0; d < draws; d++) {
      Group group = new Group(accuracy, FOUR_BUS);
      double zero = Math.sqrt(0.5) * range.offset().value() * random.nextGaussian();
      for (int[] edge : edges) {
        double noise =
            (range.noise().value() * random.nextGaussian()
                    + zero
                    + Math.sqrt(0.5) * range.offset().value() * random.nextGaussian())
                / 0.04;
        group.add(step(edge[0], edge[1]), reading(0.002 + noise));
      }
      var ohms = of(group.solve(1), 4).ohms().orElseThrow();
      sum += ohms.value();
      squares += ohms.value() * ohms.value();
      stated = ohms.u();
    }
    double sd = Math.sqrt(squares / draws - sum / draws * (sum / draws));
    // The sd of 4,000 draws is known to about 1.1 %.
    assertThat(sd / stated).isCloseTo(1, within(0.05));
  }

  @Test
  void aSwitchingJointMakesRepeatedReadingsInconsistent() {
    Group group = new Group(new Accuracy(PHOTO), PHOTO);
    List<PathEstimate> paths = new ArrayList<>();
    double[] readings = {1.7, 1.7, 1.7, 3.9, 1.7, 1.7};
    int k = 0;
    for (int i = 0; i < 4; i++) {
      for (int j = i + 1; j < 4; j++) {
        group.add(step(i, j), reading(readings[k++]));
      }
    }
    paths.addAll(group.solve(1));
    assertThat(paths).noneMatch(PathEstimate::consistent);
  }
}
