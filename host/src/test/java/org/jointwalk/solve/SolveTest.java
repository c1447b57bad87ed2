package org.jointwalk.solve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.jointwalk.trial.Readings.isolation;
import static org.jointwalk.trial.Readings.junction;
import static org.jointwalk.trial.Readings.ohms;
import static org.jointwalk.trial.Readings.over;
import static org.jointwalk.trial.Readings.residual;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Measurement;
import org.jointwalk.job.PairEstimate;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.PathEstimate.Evidence;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.Readings;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

class SolveTest {

  private static final double NONE = Double.POSITIVE_INFINITY;

  private static SmallMap map() {
    return new SmallMap()
        .net("GND", Role.GROUND)
        .net("VCC", Role.RAIL)
        .net("VDD", Role.RAIL)
        .net("S", Role.SIGNAL)
        .net("T", Role.SIGNAL)
        .pad("G1", "GND")
        .pad("G2", "GND")
        .pad("V1", "VCC")
        .pad("V2", "VCC")
        .pad("D", "VDD")
        .pad("S", "S")
        .pad("T", "T")
        .resistor("VCC", "GND", 1000)
        .resistor("VDD", "GND", 5000);
  }

  private static Solve solve(SmallMap map) {
    return new Solve(map.in("interposer-on-lower"), Instruments.ideal(Switching.MATRIX), List.of());
  }

  private static Estimates estimates(Measurement... list) {
    return solve(map()).estimates(List.of(list));
  }

  private static Optional<PathEstimate> path(Estimates estimates, int seating, String id) {
    return estimates.paths().stream()
        .filter(p -> p.seating() == seating && p.contact().equals(over(id)))
        .findFirst();
  }

  private static Evidence evidence(Estimates estimates, String id) {
    return path(estimates, 1, id).orElseThrow().evidence();
  }

  @Test
  void seatingsAreEstimatedEachByItselfAndInOrder() {
    Estimates estimates =
        estimates(ohms(2, over("G1"), over("G2"), NONE), ohms(1, over("G1"), over("G2"), 0.4));
    assertThat(estimates.paths()).extracting(PathEstimate::seating).containsExactly(1, 1, 2, 2);
    assertThat(evidence(estimates, "G1")).isEqualTo(Evidence.CONDUCTS);
    assertThat(path(estimates, 2, "G1").orElseThrow().evidence())
        .isEqualTo(Evidence.NO_PROVEN_PARTNER);
  }

  @Test
  void aJunctionThatConductsShowsThePathAndProvesItsGround() {
    Estimates estimates =
        estimates(junction(1, over("G1"), over("S"), 1), junction(1, over("G1"), over("T"), NONE));
    assertThat(evidence(estimates, "S")).isEqualTo(Evidence.CONDUCTS);
    assertThat(evidence(estimates, "T")).isEqualTo(Evidence.NO_PATH);
    assertThat(path(estimates, 1, "S").orElseThrow().partners()).containsExactly(over("G1"));
  }

  @Test
  void aJunctionAgainstAnUnprovenGroundProvesNothing() {
    assertThat(evidence(estimates(junction(1, over("G1"), over("S"), NONE)), "S"))
        .isEqualTo(Evidence.NO_PROVEN_PARTNER);
    Estimates proven =
        estimates(junction(1, over("G1"), over("S"), NONE), ohms(1, over("G1"), over("G2"), 0.1));
    assertThat(evidence(proven, "S")).isEqualTo(Evidence.NO_PATH);
  }

  @Test
  void oneOfSeveralReadingsThatConductsIsEnough() {
    Estimates estimates =
        estimates(junction(1, over("G1"), over("S"), NONE), junction(1, over("G2"), over("S"), 1));
    assertThat(evidence(estimates, "S")).isEqualTo(Evidence.CONDUCTS);
    assertThat(path(estimates, 1, "S").orElseThrow().partners())
        .containsExactly(over("G1"), over("G2"));
  }

  @Test
  void theLoadOfARailShowsThePathToItUnlessNoneIsKnown() {
    assertThat(evidence(estimates(isolation(1, over("V1"), over("G1"), 1000)), "V1"))
        .isEqualTo(Evidence.CONDUCTS);
    // A tenth of the usual current is another load; less is an open path.
    assertThat(evidence(estimates(isolation(1, over("V1"), over("G1"), 9900)), "V1"))
        .isEqualTo(Evidence.CONDUCTS);
    Estimates open =
        estimates(
            ohms(1, over("G1"), over("G2"), 0.1), isolation(1, over("V1"), over("G1"), 10_100));
    assertThat(evidence(open, "V1")).isEqualTo(Evidence.NO_PATH);
    assertThat(path(estimates(isolation(1, over("T"), over("G1"), 10)), 1, "T")).isEmpty();
  }

  /** 1 microampere of noise at 50 mV hides a load of 20 kohm and shows one of 1 kohm. */
  @Test
  void aLoadThatNoiseHidesShowsNeitherAPathNorTheLackOfOne() {
    SmallMap map = map().net("WEAK", Role.RAIL).pad("W", "WEAK").resistor("WEAK", "GND", 20_000);
    Solve noisy =
        new Solve(
            map.in("interposer-on-lower"),
            Instruments.round(Switching.MATRIX, Kelvin.NONE),
            List.of());
    Estimates hidden =
        noisy.estimates(
            List.of(
                isolation(1, over("W"), over("G1"), 20_000),
                isolation(1, over("S"), over("G1"), 20_000)));
    assertThat(hidden.paths()).isEmpty();
    assertThat(
            path(noisy.estimates(List.of(isolation(1, over("W"), over("G1"), 1))), 1, "W")
                .orElseThrow()
                .evidence())
        .isEqualTo(Evidence.CONDUCTS);
    assertThat(
            path(noisy.estimates(List.of(isolation(1, over("V1"), over("G1"), NONE))), 1, "V1")
                .orElseThrow()
                .evidence())
        .isEqualTo(Evidence.NO_PROVEN_PARTNER);
    assertThat(noisy.showsPaths(over("W"), over("G1"))).isFalse();
    assertThat(noisy.showsPaths(over("V1"), over("G1"))).isTrue();
    assertThat(solve(map).showsPaths(over("W"), over("G1"))).isTrue();
    assertThat(solve(map).showsPaths(over("S"), over("G1"))).isFalse();
  }

  @Test
  void aLoadReadingOverItsRangeIsNoPath() {
    Measurement m = isolation(1, over("V1"), over("G1"), 1000);
    Measurement over = new Measurement(1, m.step(), new Reading.OverRange(0, List.of()));
    assertThat(evidence(estimates(over), "V1")).isEqualTo(Evidence.NO_PROVEN_PARTNER);
  }

  @Test
  void groundDecidesWhatThePadsOfANetLeaveOpen() {
    Measurement among = ohms(1, over("V1"), over("V2"), NONE);
    Measurement proof = ohms(1, over("G1"), over("G2"), 0.1);
    assertThat(evidence(estimates(among), "V1")).isEqualTo(Evidence.NO_PROVEN_PARTNER);
    Estimates one = estimates(among, proof, isolation(1, over("V1"), over("G1"), 1000));
    assertThat(evidence(one, "V1")).isEqualTo(Evidence.CONDUCTS);
    assertThat(evidence(one, "V2")).isEqualTo(Evidence.NO_PROVEN_PARTNER);
    Estimates none = estimates(among, proof, isolation(1, over("V1"), over("G1"), NONE));
    assertThat(evidence(none, "V1")).isEqualTo(Evidence.NO_PATH);
    Estimates unproven = estimates(among, isolation(1, over("V1"), over("G1"), NONE));
    assertThat(evidence(unproven, "V1")).isEqualTo(Evidence.NO_PROVEN_PARTNER);
  }

  /** An open pad that solder joins to a rail reaches ground too, though not by its own net. */
  @Test
  void twoPadsWithoutAPathBetweenThemAreNotBothProvenByGround() {
    Measurement among = ohms(1, over("V1"), over("V2"), NONE);
    Measurement proof = ohms(1, over("G1"), over("G2"), 0.1);
    Estimates both =
        estimates(
            among,
            proof,
            isolation(1, over("V1"), over("G1"), 1000),
            isolation(1, over("V2"), over("G2"), 900));
    for (String id : List.of("V1", "V2")) {
      assertThat(evidence(both, id)).isEqualTo(Evidence.NO_PROVEN_PARTNER);
      assertThat(path(both, 1, id).orElseThrow().ohms()).isEmpty();
    }
    assertThat(path(both, 1, "V1").orElseThrow().partners())
        .containsExactly(over("V2"), over("G1"));
  }

  @Test
  void whatThePadsOfANetSayIsKeptBesideGround() {
    Estimates estimates =
        estimates(ohms(1, over("V1"), over("V2"), 0.6), isolation(1, over("V1"), over("G1"), NONE));
    PathEstimate path = path(estimates, 1, "V1").orElseThrow();
    assertThat(path.evidence()).isEqualTo(Evidence.CONDUCTS);
    assertThat(path.ohms().orElseThrow().value()).isCloseTo(0.6, within(1e-9));
    assertThat(path.sharedWith()).contains(over("V2"));
    assertThat(path.partners()).containsExactly(over("V2"), over("G1"));
    assertThat(path.byDrop()).isFalse();
  }

  @Test
  void theNormalLevelReadsPathsOfANetAndPairsOfOthers() {
    Measurement low = ohms(1, over("G1"), over("G2"), 0.4);
    Measurement normal =
        new Measurement(1, Readings.step(Kind.NORMAL_LEVEL, over("G1"), over("G2")), low.reading());
    assertThat(path(estimates(normal), 1, "G1").orElseThrow().ohms().orElseThrow().value())
        .isCloseTo(0.4, within(1e-9));
    Measurement across =
        new Measurement(1, Readings.step(Kind.NORMAL_LEVEL, over("V1"), over("G1")), low.reading());
    assertThat(estimates(across).pairs()).hasSize(1);
    assertThat(evidence(estimates(across), "V1")).isEqualTo(Evidence.CONDUCTS);
  }

  /** Nine junctions that are alike, and one with 8 ohm in series. */
  @Test
  void aDropAgainstAReferenceIsAnEstimateByDrop() {
    SmallMap map = new SmallMap().net("GND", Role.GROUND).pad("G1", "GND").pad("G2", "GND");
    List<Measurement> list = new ArrayList<>(List.of(ohms(1, over("G1"), over("G2"), 0)));
    List<Volts> volts =
        Readings.JUNCTION.stream()
            .map(a -> new Volts(Readings.drop(a.value(), 0, 0, NONE)))
            .toList();
    for (int i = 0; i < 10; i++) {
      map.net("N" + i, Role.SIGNAL).pad("P" + i, "N" + i);
      map.reference(
          new Reference.Drop(
              new NetId(Side.LOWER, "N" + i),
              Readings.JUNCTION,
              volts,
              new Volts(0),
              new Volts(0),
              3));
      list.add(junction(1, over("G1"), over("P" + i), i == 4 ? 8 : 0));
    }
    Estimates estimates = solve(map).estimates(list);
    PathEstimate high = path(estimates, 1, "P4").orElseThrow();
    assertThat(high.byDrop()).isTrue();
    assertThat(high.ohms().orElseThrow().value()).isCloseTo(8, within(1e-6));
    assertThat(path(estimates, 1, "P5").orElseThrow().ohms().orElseThrow().value())
        .isCloseTo(0, within(1e-6));
    assertThat(estimates.shifts()).hasSize(10);
  }

  @Test
  void aRefusedStepSaysNothing() {
    Measurement m = ohms(1, over("G1"), over("G2"), 1);
    Measurement refused = new Measurement(1, m.step(), new Reading.Refused(0, "lid open"));
    Estimates estimates = estimates(refused);
    assertThat(estimates.paths()).isEmpty();
    Measurement pair = isolation(1, over("S"), over("T"), 5);
    assertThat(
            estimates(new Measurement(1, pair.step(), new Reading.Refused(0, "lid open"))).pairs())
        .isEmpty();
  }

  @Test
  void pairsCarryWhatAGoodBoardConductsThereAndGroupsNothing() {
    Estimates estimates =
        estimates(
            ohms(1, over("V1"), over("V2"), 0.1),
            ohms(1, over("G1"), over("G2"), 0.1),
            isolation(1, over("V1"), over("G1"), 900),
            isolation(1, over("S"), over("T"), 40),
            isolation(1, List.of(over("S"), over("V1")), List.of(over("G1")), 900));
    assertThat(estimates.pairs()).hasSize(3);
    assertThat(estimates.pairs().get(0).expectedSiemens()).isCloseTo(1e-3, within(1e-12));
    assertThat(estimates.pairs().get(1).expectedSiemens()).isZero();
    assertThat(estimates.pairs().get(1).siemens().value()).isCloseTo(1 / 40.0, within(1e-12));
    // S joins T, and neither of them what stands in the groups.
    assertThat(estimates.pairs().get(2).expectedSiemens()).isCloseTo(1e-3, within(1e-9));
    assertThat(
            estimates(isolation(1, List.of(over("V1"), over("S")), List.of(over("G1")), 9)).pairs())
        .extracting(PairEstimate::expectedSiemens)
        .containsExactly(0.0);
  }

  @Test
  void readingsWithinOneNetAndVoltagesAreNoPairs() {
    assertThat(
            estimates(
                    ohms(1, over("G1"), over("G2"), 1),
                    junction(1, over("G1"), over("S"), 1),
                    residual(1, Kind.RESIDUAL, over("S"), over("G1"), 0))
                .pairs())
        .isEmpty();
  }

  @Test
  void aPairOverItsRangeConductsNothing() {
    Measurement m = isolation(1, over("S"), over("T"), 5);
    PairEstimate pair =
        estimates(new Measurement(1, m.step(), new Reading.OverRange(0, List.of()))).pairs().get(0);
    assertThat(pair.siemens().value()).isZero();
    assertThat(pair.siemens().u()).isPositive();
  }

  private static Measurement[] allConduct() {
    return new Measurement[] {
      ohms(1, over("G1"), over("G2"), 0),
      ohms(1, over("V1"), over("V2"), 0),
      junction(1, over("G1"), over("D"), 0),
      junction(1, over("G1"), over("S"), 0),
      junction(1, over("G1"), over("T"), 0)
    };
  }

  /** Conductances without a join, as resistances, by the pair. */
  private static double[] allowedOhms(SmallMap map, Measurement... pairs) {
    List<Measurement> list = new ArrayList<>(Arrays.asList(allConduct()));
    list.addAll(Arrays.asList(pairs));
    return solve(map).estimates(list).pairs().stream()
        .mapToDouble(p -> 1 / p.expectedSiemens())
        .toArray();
  }

  @Test
  void aRailOnGroundExplainsWhatItsNeighboursConduct() {
    SmallMap pulled = map().resistor("S", "VCC", 10_000).resistor("T", "VDD", 10_000);
    double[] shorted =
        allowedOhms(
            pulled,
            isolation(1, over("S"), over("T"), 25_000),
            isolation(1, over("V1"), over("G1"), 0.5),
            isolation(1, over("V1"), over("D"), 5000));
    assertThat(shorted[0]).isCloseTo(10_000 + 10_000 + 5000, within(1.0));
    assertThat(shorted[1]).isCloseTo(1000, within(1e-6));
    assertThat(shorted[2]).isCloseTo(5000, within(1.0));
    double[] good =
        allowedOhms(
            pulled,
            isolation(1, over("S"), over("T"), 26_000),
            isolation(1, over("V1"), over("G1"), 700));
    assertThat(good[0]).isCloseTo(26_000, within(1e-6));
    assertThat(good[1]).isCloseTo(1000, within(1e-6));
  }

  @Test
  void aSignalOnGroundExplainsWhatItReadsToEveryRail() {
    double[] allowed =
        allowedOhms(
            map(),
            isolation(1, over("S"), over("V1"), 1024),
            isolation(1, over("S"), over("G1"), 24),
            isolation(1, over("S"), over("T"), NONE));
    assertThat(allowed[0]).isCloseTo(1024, within(1e-6));
    assertThat(allowed[1]).isInfinite();
    assertThat(allowed[2]).isInfinite();
  }

  @Test
  void ofThreeNetsInARowTheMiddleOneJoinsTheOthers() {
    double[] chain =
        allowedOhms(
            map(),
            isolation(1, over("S"), over("T"), 2),
            isolation(1, over("T"), over("D"), 3),
            isolation(1, over("S"), over("D"), 5));
    assertThat(chain[0]).isInfinite();
    assertThat(chain[1]).isInfinite();
    assertThat(chain[2]).isCloseTo(5, within(1e-6));
    double[] ring =
        allowedOhms(
            map(),
            isolation(1, over("S"), over("T"), 2),
            isolation(1, over("T"), over("D"), 3),
            isolation(1, over("S"), over("D"), 3.2),
            isolation(1, over("S"), over("V1"), NONE));
    assertThat(ring[2]).isCloseTo(5, within(1e-6));
  }

  @Test
  void anOpenPadStandsForItselfAndHasNoLoad() {
    Estimates open =
        solve(map())
            .estimates(
                List.of(
                    ohms(1, over("G1"), over("G2"), 0),
                    ohms(1, over("V1"), over("V2"), NONE),
                    isolation(1, over("V1"), over("G1"), 1000),
                    isolation(1, over("V2"), over("G1"), NONE)));
    assertThat(open.pairs().get(0).expectedSiemens()).isCloseTo(1e-3, within(1e-12));
    assertThat(open.pairs().get(1).expectedSiemens()).isZero();
  }

  @Test
  void aLoadedVoltageCompletesTheUnloadedOneOfItsOwnContact() {
    Estimates estimates =
        estimates(
            residual(1, Kind.RESIDUAL, over("V1"), over("G1"), 0.3),
            residual(1, Kind.RESIDUAL_LOADED, over("V1"), over("G1"), 0.001),
            residual(1, Kind.RESIDUAL, over("D"), over("G1"), 0.02),
            residual(1, Kind.RESIDUAL_LOADED, over("S"), over("G1"), 0.01));
    assertThat(estimates.residuals()).hasSize(2);
    assertThat(estimates.residuals().get(0).volts()).isEqualTo(0.3);
    assertThat(estimates.residuals().get(0).loaded()).isEqualTo(0.001);
    assertThat(estimates.residuals().get(1).contact()).isEqualTo(over("D"));
    assertThat(estimates.residuals().get(1).loaded()).isNaN();
  }

  @Test
  void aLoadedVoltageAloneIsLeftOut() {
    assertThat(
            estimates(residual(1, Kind.RESIDUAL_LOADED, over("V1"), over("G1"), 0.3)).residuals())
        .isEmpty();
  }

  @Test
  void stepsOfGroupsAndVoltagesShowNoPath() {
    Contact g1 = over("G1");
    Estimates estimates =
        estimates(
            isolation(1, List.of(over("V1"), over("V2")), List.of(g1), 1000),
            residual(1, Kind.RESIDUAL, over("V1"), g1, 0),
            residual(1, Kind.DISCHARGE, over("V1"), g1, 0));
    assertThat(estimates.paths()).isEmpty();
  }

  @Test
  void aDropWithoutAReferenceShowsThePathButNoResistance() {
    Estimates estimates = estimates(junction(1, over("G1"), over("S"), 1));
    assertThat(path(estimates, 1, "S").orElseThrow().byDrop()).isFalse();
    assertThat(path(estimates, 1, "S").orElseThrow().ohms()).isEmpty();
    assertThat(solve(map()).drops(List.of(junction(1, over("G1"), over("S"), 1)))).hasSize(1);
  }
}
