package org.jointwalk.solve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.jointwalk.trial.Readings.ohms;
import static org.jointwalk.trial.Readings.over;
import static org.jointwalk.trial.Readings.under;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Measurement;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.PathEstimate.Evidence;
import org.jointwalk.quantity.Contribution;
import org.jointwalk.stack.Contact;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;

class GroupTest {

  private static final Capabilities IDEAL = Instruments.ideal(Switching.MATRIX);
  private static final double NONE = Double.POSITIVE_INFINITY;

  private static Group group(Capabilities capabilities, Measurement... measurements) {
    Group group = new Group(new Accuracy(capabilities), capabilities);
    for (Measurement m : measurements) {
      group.add(m.step(), m.reading());
    }
    return group;
  }

  private static PathEstimate of(Group group, Contact contact) {
    return group.solve(1).stream()
        .filter(p -> p.contact().equals(contact))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void anyConnectedSetOfReadingsWithAnOddRingGivesEveryPathBack() {
    Trials.of(
        60,
        random -> {
          int n = 3 + random.nextInt(9);
          double[] paths = random.doubles(n, 0, 3).toArray();
          List<Measurement> list = new ArrayList<>();
          for (int i = 1; i < n; i++) {
            int j = random.nextInt(i);
            boolean forth = random.nextBoolean();
            list.add(
                ohms(
                    1,
                    over("P" + (forth ? i : j)),
                    over("P" + (forth ? j : i)),
                    paths[i] + paths[j]));
          }
          // Two more readings close a triangle with the first.
          list.add(ohms(1, over("P0"), over("P2"), paths[0] + paths[2]));
          list.add(ohms(1, over("P1"), over("P2"), paths[1] + paths[2]));
          Group group = group(IDEAL, list.toArray(new Measurement[0]));
          for (int i = 0; i < n; i++) {
            PathEstimate path = of(group, over("P" + i));
            assertThat(path.sharedWith()).isEmpty();
            assertThat(path.ohms().orElseThrow().value()).isCloseTo(paths[i], within(1e-9));
            assertThat(path.consistent()).isTrue();
          }
        });
  }

  @Test
  void partsThatAreNotConnectedAreSolvedEachByItself() {
    Group group =
        group(
            IDEAL,
            ohms(1, over("A"), over("B"), 3),
            ohms(1, over("B"), over("C"), 5),
            ohms(1, over("A"), over("C"), 4),
            ohms(1, over("X"), over("Y"), 7));
    assertThat(of(group, over("A")).ohms().orElseThrow().value()).isCloseTo(1, within(1e-9));
    assertThat(of(group, over("C")).sharedWith()).isEmpty();
    assertThat(of(group, over("X")).sharedWith()).contains(over("Y"));
    assertThat(of(group, over("X")).partners()).containsExactly(over("Y"));
  }

  @Test
  void ofSeveralSumsTheSmallestIsNearestToThePath() {
    Group group =
        group(
            IDEAL,
            ohms(1, over("A"), over("B"), 5),
            ohms(1, over("A"), over("C"), 2),
            ohms(1, over("A"), over("D"), 3));
    assertThat(of(group, over("A")).sharedWith()).contains(over("C"));
    assertThat(of(group, over("A")).ohms().orElseThrow().value()).isCloseTo(2, within(1e-12));
    assertThat(of(group, over("B")).sharedWith()).contains(over("A"));
  }

  @Test
  void contactsAreTakenOffOnceForAPathAndTwiceForASum() {
    Capabilities tail = Instruments.round(Switching.MATRIX, Kelvin.TAIL);
    Group triangle =
        group(
            tail,
            ohms(1, over("A"), over("B"), 1.08),
            ohms(1, over("B"), over("C"), 1.08),
            ohms(1, over("A"), over("C"), 1.08));
    PathEstimate path = of(triangle, over("A"));
    assertThat(path.ohms().orElseThrow().value()).isCloseTo(0.5, within(1e-9));
    assertThat(contactPart(path)).isCloseTo(0.02, within(1e-12));
    PathEstimate sum = of(group(tail, ohms(1, over("A"), over("B"), 1.08)), over("A"));
    assertThat(sum.ohms().orElseThrow().value()).isCloseTo(1, within(1e-9));
    assertThat(contactPart(sum)).isCloseTo(0.02 * Math.sqrt(2), within(1e-12));
  }

  @Test
  void theBudgetSaysHowManyContactsAreInIt() {
    Capabilities tail = Instruments.round(Switching.MATRIX, Kelvin.TAIL);
    Group sum = group(tail, ohms(1, over("A"), over("B"), 1));
    assertThat(of(sum, over("A")).ohms().orElseThrow().budget())
        .extracting(Contribution::source)
        .contains("two probe contacts of this seating");
    Group triangle =
        group(
            tail,
            ohms(1, over("A"), over("B"), 1),
            ohms(1, over("B"), over("C"), 1),
            ohms(1, over("A"), over("C"), 1));
    assertThat(of(triangle, over("A")).ohms().orElseThrow().budget())
        .extracting(Contribution::source)
        .contains("probe contact of this seating");
  }

  /** Of two readings of one pair the one with a third of the uncertainty has nine times the say. */
  @Test
  void betterReadingsWeighMore() {
    Capabilities noisy =
        Instruments.with(
            Instruments.ideal(Switching.MATRIX),
            Kind.LOW_LEVEL,
            Instruments.range(0.1, 0.02, 0, 0, 3e-6, 0));
    Group group = new Group(new Accuracy(noisy), noisy);
    double[][] readings = {{1, 0.01}, {2, 0.03}};
    for (double[] reading : readings) {
      group.add(
          ohms(1, over("A"), over("B"), 1).step(),
          new Reading.Measured(0, List.of(new Reading.Point(reading[0] * reading[1], reading[1]))));
    }
    Measurement bc = ohms(1, over("B"), over("C"), 1);
    Measurement ac = ohms(1, over("A"), over("C"), 1);
    group.add(bc.step(), bc.reading());
    group.add(ac.step(), ac.reading());
    double ab = (1 * 1 + 2 * 9) / 10.0;
    assertThat(of(group, over("A")).ohms().orElseThrow().value()).isCloseTo(ab / 2, within(1e-9));
  }

  private static double contactPart(PathEstimate path) {
    return path.ohms().orElseThrow().budget().stream()
        .filter(c -> c.source().contains("contact"))
        .mapToDouble(Contribution::u)
        .sum();
  }

  @Test
  void thePartsOfAPathsBudgetAddUpToItsUncertainty() {
    Capabilities wires = Instruments.round(Switching.MATRIX, Kelvin.NONE);
    Group triangle =
        group(
            wires,
            ohms(1, over("A"), over("B"), 2),
            ohms(1, over("B"), over("C"), 2),
            ohms(1, over("A"), over("C"), 2));
    PathEstimate path = of(triangle, over("B"));
    double squares =
        path.ohms().orElseThrow().budget().stream().mapToDouble(c -> c.u() * c.u()).sum();
    assertThat(Math.sqrt(squares)).isCloseTo(path.ohms().orElseThrow().u(), within(1e-12));
    assertThat(path.ohms().orElseThrow().budget())
        .extracting(Contribution::source)
        .contains("switches after zero", "scale of the range");
  }

  @Test
  void aReadingThatCarriedNoCurrentIsNoPath() {
    Measurement dead = ohms(1, over("A"), over("B"), 1);
    Reading none = new Reading.Measured(0, List.of(new Reading.Point(0.02, 0)));
    Group group = new Group(new Accuracy(IDEAL), IDEAL);
    group.add(dead.step(), none);
    assertThat(group.conducting()).isEmpty();
    assertThat(of(group, over("A")).evidence()).isEqualTo(Evidence.NO_PROVEN_PARTNER);
  }

  @Test
  void aViaBetweenItsOwnTwoProbesNeedsNoOtherProof() {
    Group lone = group(IDEAL, ohms(1, over("A"), under("A"), NONE));
    assertThat(of(lone, over("A")).evidence()).isEqualTo(Evidence.NO_PATH);
    Group pair = group(IDEAL, ohms(1, over("A"), over("B"), NONE));
    assertThat(of(pair, over("A")).evidence()).isEqualTo(Evidence.NO_PROVEN_PARTNER);
  }

  /**
   * A triangle with one reading taken twice leaves one over: half of each difference squared,
   * twice. Chi-square of one degree of freedom at one in ten thousand is 15.14 (table value).
   */
  @Test
  void aMilliohmOfPlaneContradictsNothing() {
    double edge = Math.sqrt(15.14 / 2) * 1e-3;
    for (double factor : new double[] {0.99, 1.01}) {
      Group group =
          group(
              IDEAL,
              ohms(1, over("A"), over("B"), 2 + factor * edge),
              ohms(1, over("A"), over("B"), 2 - factor * edge),
              ohms(1, over("B"), over("C"), 2),
              ohms(1, over("A"), over("C"), 2));
      assertThat(of(group, over("C")).consistent()).isEqualTo(factor < 1);
    }
  }

  @Test
  void readingsThatContradictEachOtherAreNotConsistent() {
    Capabilities tip = Instruments.round(Switching.MATRIX, Kelvin.TIP);
    Measurement[] steady = {
      ohms(1, over("A"), over("B"), 2),
      ohms(1, over("B"), over("C"), 2),
      ohms(1, over("A"), over("C"), 2),
      ohms(1, over("A"), over("B"), 2.02)
    };
    assertThat(of(group(tip, steady), over("C")).consistent()).isTrue();
    steady[3] = ohms(1, over("A"), over("B"), 2.4);
    assertThat(of(group(tip, steady), over("C")).consistent()).isFalse();
  }
}
