package org.jointwalk.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;
import static org.jointwalk.grade.Bench.pair;
import static org.jointwalk.trial.Readings.isolation;
import static org.jointwalk.trial.Readings.junction;
import static org.jointwalk.trial.Readings.ohms;
import static org.jointwalk.trial.Readings.over;
import static org.jointwalk.trial.Readings.residual;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Measurement;
import org.jointwalk.job.Question;
import org.jointwalk.job.Question.Need;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

class BridgesTest {

  private static final double NONE = Double.POSITIVE_INFINITY;

  /** In a row: ground, four signals, a rail, ground, a spare pad. */
  private static SmallMap map() {
    SmallMap map =
        new SmallMap()
            .net("GND", Role.GROUND)
            .net("VCC", Role.RAIL)
            .net("SPARE", Role.UNUSED)
            .pad("G1", "GND");
    for (int i = 1; i <= 4; i++) {
      map.net("S" + i, Role.SIGNAL).pad("P" + i, "S" + i);
    }
    return map.pad("V", "VCC").pad("G2", "GND").pad("X", "SPARE").resistor("VCC", "GND", 1000);
  }

  /** Grounds that conduct, voltages of nothing, and signals with a path, in one seating. */
  private static List<Measurement> sound(int seating, String... without) {
    List<Measurement> list = new ArrayList<>();
    list.add(ohms(seating, over("G1"), over("G2"), 0.1));
    list.add(residual(seating, Kind.RESIDUAL, over("V"), over("G1"), 0));
    for (String id : List.of("P1", "P2", "P3", "P4", "V")) {
      boolean open = Arrays.asList(without).contains(id);
      list.add(junction(seating, over("G1"), over(id), open ? NONE : 0));
    }
    return list;
  }

  private static List<Measurement> with(List<Measurement> list, Measurement... more) {
    List<Measurement> all = new ArrayList<>(list);
    all.addAll(Arrays.asList(more));
    return all;
  }

  private static List<Measurement> cleared(int seating) {
    List<Measurement> list = new ArrayList<>();
    String[] row = {"G1", "P1", "P2", "P3", "P4", "V", "G2", "X"};
    for (int i = 0; i + 1 < row.length; i++) {
      boolean load = row[i].equals("V");
      list.add(isolation(seating, over(row[i]), over(row[i + 1]), load ? 1000 : NONE));
    }
    return list;
  }

  // What is asked

  @Test
  void everyPairOfNeighboursOnDifferentNetsIsAskedOnce() {
    assertThat(Bench.of(map()).pairs(sound(1), 1, Need.ISOLATION))
        .containsExactlyInAnyOrder(
            pair("G1", "P1"),
            pair("P1", "P2"),
            pair("P2", "P3"),
            pair("P3", "P4"),
            pair("P4", "V"),
            pair("V", "G2"),
            pair("G2", "X"));
  }

  @Test
  void whatWasReadIsNotAskedAgainInAnySeating() {
    Bench bench = Bench.of(map());
    assertThat(
            bench.pairs(
                with(sound(1), isolation(1, over("P2"), over("P1"), NONE)), 1, Need.ISOLATION))
        .hasSize(6)
        .doesNotContain(pair("P1", "P2"));
    List<Measurement> all = with(sound(1));
    all.addAll(cleared(1));
    assertThat(bench.grading().open(bench.solve().estimates(all), 1, Set.of())).isEmpty();
  }

  @Test
  void aRailAwayFromGroundIsReadAgainstItAllTheSame() {
    SmallMap apart =
        new SmallMap()
            .net("GND", Role.GROUND)
            .net("VCC", Role.RAIL)
            .at("G1", 0, 0, "GND", "GND")
            .at("G2", 1, 0, "GND", "GND")
            .at("V", 50, 0, "VCC", "VCC");
    List<Measurement> list =
        List.of(
            ohms(1, over("G1"), over("G2"), 0.1),
            residual(1, Kind.RESIDUAL, over("V"), over("G1"), 0),
            junction(1, over("G1"), over("V"), 0));
    assertThat(Bench.of(apart).pairs(list, 1, Need.ISOLATION)).containsExactly(pair("G1", "V"));
  }

  @Test
  void anOpenPadIsANetOfItsOwn() {
    Bench bench = Bench.of(map());
    List<Measurement> list = sound(1, "P2");
    assertThat(bench.pairs(list, 1, Need.ISOLATION)).contains(pair("P1", "P2"), pair("P2", "P3"));
    list.addAll(cleared(1));
    Findings joined = bench.findings(with(list, isolation(1, over("P2"), over("P3"), 5)));
    assertThat(joined.bridges()).extracting(BridgeFinding::a).containsExactly("P2");
  }

  /** It read open in the first seating, where nothing was found; that clears nobody. */
  @Test
  void aProbeThatLandsForTheFirstTimeGetsItsPairsTested() {
    Bench bench = Bench.of(map());
    List<Measurement> list = sound(1, "P2");
    list.addAll(cleared(1));
    list.addAll(sound(2));
    assertThat(bench.pairs(list, 2, Need.ISOLATION))
        .containsExactlyInAnyOrder(pair("P1", "P2"), pair("P2", "P3"));
    list.add(isolation(2, over("P1"), over("P2"), NONE));
    list.add(isolation(2, over("P2"), over("P3"), 7));
    assertThat(bench.findings(list).bridges())
        .extracting(b -> b.a() + "-" + b.b())
        .containsExactly("P2-P3");
  }

  @Test
  void aProbeThatLandsLateIsAlsoTestedAgainstAPadThatCannotBeRead() {
    SmallMap map = map().pad("P5", "S5").net("S5", Role.SIGNAL);
    Bench bench = Bench.of(map);
    List<Measurement> list = sound(1);
    list.add(junction(1, over("G1"), over("P5"), NONE));
    list.addAll(cleared(1));
    list.add(isolation(1, over("X"), over("P5"), NONE));
    list.add(ohms(2, over("G1"), over("G2"), 0.1));
    list.add(residual(2, Kind.RESIDUAL, over("V"), over("G1"), 0));
    list.add(junction(2, over("G1"), over("P5"), 0));
    list.add(junction(2, over("G1"), over("V"), 0));
    for (String id : List.of("P1", "P2", "P3", "P4")) {
      list.add(junction(2, over("G1"), over(id), 0));
    }
    assertThat(bench.pairs(list, 2, Need.ISOLATION)).containsExactly(pair("X", "P5"));
  }

  @Test
  void anotherPadOfItsNetStandsInForOneThatDoesNotConductNow() {
    SmallMap map = map().pad("P1B", "S1").pad("S5", "S5").net("S5", Role.SIGNAL);
    List<Measurement> list = sound(1);
    list.add(ohms(1, over("P1"), over("P1B"), 0.1));
    list.add(junction(1, over("G1"), over("S5"), 0));
    list.addAll(cleared(1));
    list.add(isolation(1, over("X"), over("P1B"), NONE));
    List<Measurement> later = new ArrayList<>(list);
    later.addAll(sound(2));
    later.add(ohms(2, over("P1"), over("P1B"), NONE));
    later.add(junction(2, over("G1"), over("P1B"), NONE));
    later.add(junction(2, over("G1"), over("S5"), 0));
    assertThat(Bench.of(map).pairs(later, 2, Need.ISOLATION)).containsExactly(pair("P1", "S5"));
  }

  @Test
  void inASeatingThatSatBadlyOnlyPathsThatConductAreReadAgainstEachOther() {
    SmallMap map = new SmallMap().net("GND", Role.GROUND).pad("G1", "GND").pad("G2", "GND");
    List<Measurement> list = new ArrayList<>();
    list.add(ohms(1, over("G1"), over("G2"), 0.1));
    list.add(residual(1, Kind.RESIDUAL, over("Q0"), over("G1"), 0));
    for (int i = 0; i < 20; i++) {
      map.net("N" + i, Role.SIGNAL).pad("Q" + i, "N" + i);
      list.add(junction(1, over("G1"), over("Q" + i), i < 10 ? NONE : 0));
    }
    List<Set<Contact>> pairs = Bench.of(map).pairs(list, 1, Need.ISOLATION);
    assertThat(pairs).hasSize(9).contains(pair("Q10", "Q11"), pair("Q18", "Q19"));
  }

  @Test
  void nothingIsReadBetweenNetsBeforeAGroundIsProvenAndVoltagesAreRead() {
    Bench bench = Bench.of(map());
    for (List<Measurement> list :
        List.of(
            List.of(ohms(1, over("G1"), over("G2"), NONE)),
            List.of(ohms(1, over("G1"), over("G2"), 0.1)))) {
      for (Need exhausted : Need.values()) {
        List<Question> questions =
            bench.grading().open(bench.solve().estimates(list), 1, Set.of(exhausted));
        assertThat(questions).noneMatch(q -> q.need() == Need.ISOLATION);
      }
    }
  }

  // What is joined

  @Test
  void tenKilohmIsTheLimitOnABoardAndAMegohmOnABareInterposer() {
    Bench board = Bench.of(map());
    List<Measurement> sound = sound(1);
    assertThat(board.findings(with(sound, isolation(1, over("P1"), over("P2"), 9_990))).bridges())
        .hasSize(1);
    assertThat(board.findings(with(sound, isolation(1, over("P1"), over("P2"), 10_010))).bridges())
        .isEmpty();
    Bench bare = Bench.of(map(), "interposer", Instruments.ideal(Switching.MULTIPLEXER));
    assertThat(bare.findings(List.of(isolation(1, over("P1"), over("P2"), 999_000))).bridges())
        .hasSize(1);
    assertThat(bare.findings(List.of(isolation(1, over("P1"), over("P2"), 1_001_000))).bridges())
        .isEmpty();
  }

  /** 1 microampere of noise at 50 mV is 20 microsiemens; five of them are 0.1 millisiemens. */
  @Test
  void aConductanceWithinFiveUncertaintiesOfTheLimitIsNoBridge() {
    Bench noisy =
        Bench.of(
            map(), "interposer-on-lower", Instruments.round(Switching.MULTIPLEXER, Kelvin.TIP));
    List<Measurement> sound = sound(1);
    assertThat(noisy.findings(with(sound, isolation(1, over("P1"), over("P2"), 4_700))).bridges())
        .hasSize(1);
    assertThat(noisy.findings(with(sound, isolation(1, over("P1"), over("P2"), 5_000))).bridges())
        .isEmpty();
  }

  /** Loads spread by a tenth, so that half of the usual resistance is the limit. */
  @Test
  void aLoadOfLessThanHalfTheUsualResistanceIsAnotherLoad() {
    Bench bench = Bench.of(map());
    List<Measurement> sound = sound(1);
    List<BoardFinding> shorted =
        bench.findings(with(sound, isolation(1, over("V"), over("G2"), 499))).boards();
    assertThat(shorted).hasSize(1);
    assertThat(shorted.get(0).net().name()).isEqualTo("VCC");
    assertThat(shorted.get(0).fault()).isEqualTo(BoardFinding.Fault.DIFFERENT);
    assertThat(shorted.get(0).reason())
        .contains("499 ohm", "GND", "a good board has about 1.00 kohm", "solder at V-G2");
    assertThat(bench.findings(with(sound, isolation(1, over("V"), over("G2"), 501))).boards())
        .isEmpty();
  }

  @Test
  void switchesAndContactsAreTakenOffAJoinAndNeverLeaveLessThanNothing() {
    Bench wires =
        Bench.of(
            map(), "interposer-on-lower", Instruments.round(Switching.MULTIPLEXER, Kelvin.NONE));
    List<Measurement> sound = sound(1);
    BridgeFinding bridge =
        wires.findings(with(sound, isolation(1, over("P1"), over("P2"), 10))).bridges().get(0);
    assertThat(bridge.ohms().value()).isCloseTo(10 - 0.5 - 0.08, within(1e-6));
    BridgeFinding dead =
        wires.findings(with(sound, isolation(1, over("P1"), over("P2"), 0.3))).bridges().get(0);
    assertThat(dead.ohms().value()).isZero();
    double u = Math.hypot(0.05, 0.02) * Math.sqrt(2);
    assertThat(dead.ohms().u()).isGreaterThan(u);
  }

  @Test
  void joinedNeighboursAreBothBridgedUnlessTheyAreOpen() {
    Bench bench = Bench.of(map());
    Findings findings =
        bench.findings(with(sound(1, "P3"), isolation(1, over("P2"), over("P3"), 0.5)));
    assertThat(findings.graded(Grade.BRIDGED)).extracting(f -> f.position()).containsExactly("P2");
    assertThat(findings.graded(Grade.OPEN)).extracting(f -> f.position()).containsExactly("P3");
    assertThat(findings.graded(Grade.BRIDGED).get(0).reason()).contains("joined to P3 by 500 mohm");
    assertThat(findings.graded(Grade.BRIDGED).get(0).among())
        .containsExactly(Component.Bridge.between(Side.LOWER, "P2", "P3"));
  }

  @Test
  void withoutJointsABridgeLiesOnTheFacesThatAreTouched() {
    Bench board = Bench.of(map(), "lower-board", Instruments.ideal(Switching.MULTIPLEXER));
    assertThat(
            board
                .findings(with(sound(1), isolation(1, over("P1"), over("P2"), 1)))
                .graded(Grade.BRIDGED)
                .get(0)
                .among())
        .containsExactly(Component.Bridge.between(Side.LOWER, "P1", "P2"));
    Bench bare = Bench.of(map(), "interposer", Instruments.ideal(Switching.MULTIPLEXER));
    assertThat(
            bare.findings(List.of(isolation(1, over("P1"), over("P2"), 1)))
                .graded(Grade.BRIDGED)
                .get(0)
                .among())
        .containsExactlyInAnyOrder(
            Component.Bridge.between(Side.LOWER, "P1", "P2"),
            Component.Bridge.between(Side.UPPER, "P1", "P2"));
  }

  @Test
  void aSpareOrUnreadPadThatIsJoinedIsBridged() {
    Findings findings =
        Bench.of(map()).findings(with(sound(1), isolation(1, over("G2"), over("X"), 2)));
    assertThat(findings.graded(Grade.BRIDGED))
        .extracting(f -> f.position())
        .containsExactly("G2", "X");
  }

  @Test
  void anOpenPadOfARailThatIsJoinedToGroundIsABridgeAndNoShortedRail() {
    SmallMap map = map().pad("V2", "VCC").pad("G3", "GND");
    List<Measurement> list = sound(1);
    list.add(ohms(1, over("V"), over("V2"), NONE));
    list.add(isolation(1, over("V2"), over("G3"), 1));
    Findings findings = Bench.of(map).findings(list);
    assertThat(findings.boards()).isEmpty();
    assertThat(findings.bridges()).extracting(b -> b.a() + b.b()).containsExactly("G3V2");
  }

  // Where it is

  /** Two nets that lie side by side in many places. */
  private static SmallMap comb(int places) {
    SmallMap map = new SmallMap().net("GND", Role.GROUND).net("A", Role.SIGNAL);
    map.net("B", Role.SIGNAL).at("G1", 0, 90, "GND", "GND").at("G2", 1, 90, "GND", "GND");
    for (int i = 0; i < places; i++) {
      map.at("A" + i, 0.5 * i, 0, "A", "A").at("B" + i, 0.5 * i, 0.5, "B", "B");
    }
    return map;
  }

  private static List<Measurement> combed(int places) {
    List<Measurement> list = new ArrayList<>();
    list.add(ohms(1, over("G1"), over("G2"), 0.1));
    list.add(residual(1, Kind.RESIDUAL, over("A0"), over("G1"), 0));
    for (String net : List.of("A", "B")) {
      for (int i = 0; i < places; i++) {
        int next = (i + 1) % places;
        list.add(ohms(1, over(net + i), over(net + next), 0.1));
        list.add(ohms(1, over(net + i), over(net + (i + 2) % places), 0.1));
      }
    }
    return list;
  }

  @Test
  void everyPlaceOfAFoundJoinIsReadAndTheOneWithTheLeastResistanceNamed() {
    Bench bench = Bench.of(comb(4));
    List<Measurement> list = combed(4);
    assertThat(bench.pairs(list, 1, Need.ISOLATION))
        .containsExactly(Set.of(over("A0"), over("B0")));
    list.add(isolation(1, over("A0"), over("B0"), 0.9));
    List<Set<Contact>> places = bench.pairs(list, 1, Need.LOCALISE);
    assertThat(places).hasSize(10).contains(Set.of(over("A0"), over("B0")));
    for (Set<Contact> place : places) {
      List<Contact> two = List.copyOf(place);
      boolean here = place.equals(Set.of(over("A2"), over("B3")));
      list.add(ohms(1, two.get(0), two.get(1), here ? 0.2 : 0.7));
    }
    assertThat(bench.grading().open(bench.solve().estimates(list), 1, Set.of())).isEmpty();
    assertThat(bench.findings(list).bridges())
        .extracting(b -> b.a() + "-" + b.b())
        .containsExactly("A2-B3");
  }

  /** Nobody knows on which side of the gap solder would lie. */
  @Test
  void besideAnOpenPadItsNetIsReadTooThroughAnotherPad() {
    SmallMap map =
        new SmallMap()
            .net("GND", Role.GROUND)
            .net("S", Role.SIGNAL)
            .net("T", Role.SIGNAL)
            .pad("G1", "GND")
            .pad("S1", "S")
            .pad("T1", "T")
            .pad("G2", "GND")
            .pad("T2", "T")
            .pad("T3", "T");
    Bench bench = Bench.of(map);
    List<Measurement> list = new ArrayList<>();
    list.add(ohms(1, over("G1"), over("G2"), 0.1));
    list.add(residual(1, Kind.RESIDUAL, over("S1"), over("G1"), 0));
    list.add(junction(1, over("G1"), over("S1"), 0));
    list.add(ohms(1, over("T1"), over("T2"), NONE));
    list.add(ohms(1, over("T1"), over("T3"), NONE));
    list.add(ohms(1, over("T2"), over("T3"), 0.1));
    assertThat(bench.pairs(list, 1, Need.ISOLATION)).contains(pair("S1", "T1"), pair("S1", "T2"));
    list.add(isolation(1, over("G1"), over("S1"), NONE));
    list.add(isolation(1, over("G1"), over("T2"), NONE));
    list.add(isolation(1, over("S1"), over("T1"), NONE));
    list.add(isolation(1, over("S1"), over("T2"), 0.2));
    assertThat(bench.findings(list).bridges())
        .extracting(b -> b.a() + b.b())
        .containsExactly("S1T1");
  }

  /** P4 beside the rail V of 1000 ohm to ground: the pair reads the rail's own load. */
  @Test
  void aNetThatAFailedPartShortsToGroundIsNotBridgedToTheRailBesideIt() {
    Bench bench = Bench.of(map());
    List<Measurement> list = new ArrayList<>(sound(1));
    for (Measurement m : cleared(1)) {
      boolean rail = m.step().a().equals(over("P4"));
      list.add(rail ? isolation(1, over("P4"), over("V"), 1000.2) : m);
    }
    assertThat(bench.pairs(list, 1, Need.LOCALISE)).contains(pair("P4", "G1"));
    list.add(ohms(1, over("P4"), over("V"), NONE));
    list.add(isolation(1, over("P4"), over("G1"), 0.2));
    list.add(ohms(1, over("P4"), over("G1"), 0.2));
    Findings findings = bench.findings(list);
    assertThat(findings.bridges()).isEmpty();
    assertThat(findings.boards())
        .extracting(b -> b.net().name(), BoardFinding::fault)
        .containsExactly(tuple("S4", BoardFinding.Fault.SHORTED));
  }

  @Test
  void notMoreThanTwentyFourPlacesAreReadInAll() {
    Bench bench = Bench.of(comb(12));
    List<Measurement> list = combed(12);
    list.add(isolation(1, over("A0"), over("B0"), 0.9));
    List<Set<Contact>> places = bench.pairs(list, 1, Need.LOCALISE);
    assertThat(places).hasSize(24);
    for (Set<Contact> place : places) {
      List<Contact> two = List.copyOf(place);
      list.add(ohms(1, two.get(0), two.get(1), 0.9));
    }
    assertThat(bench.grading().open(bench.solve().estimates(list), 1, Set.of())).isEmpty();
  }

  /** Metal that the interposer joins need not be proven to find where a join lies. */
  @Test
  void aJoinWithSharedMetalIsLookedForAtItsLands() {
    SmallMap map = new SmallMap().net("GND", Role.GROUND).net("S", Role.SIGNAL);
    map.net("B", Role.SIGNAL, "radio", 0, false)
        .pad("G1", "GND")
        .pad("G2", "GND")
        .pad("E1", "GND")
        .pad("S", "S")
        .pad("E2", "GND")
        .pad("B", "B")
        .tie(Tie.Where.EDGE, "E1", "E2");
    Bench bench = Bench.of(map);
    List<Measurement> list = new ArrayList<>();
    list.add(ohms(1, over("G1"), over("G2"), 0.1));
    list.add(residual(1, Kind.RESIDUAL, over("S"), over("G1"), 0));
    list.add(junction(1, over("G1"), over("S"), 0));
    assertThat(bench.pairs(list, 1, Need.ISOLATION))
        .containsExactlyInAnyOrder(pair("G1", "S"), pair("G1", "B"));
    list.add(isolation(1, over("G1"), over("S"), 5));
    list.add(isolation(1, over("G1"), over("B"), NONE));
    assertThat(bench.pairs(list, 1, Need.LOCALISE))
        .containsExactlyInAnyOrder(pair("E1", "S"), pair("S", "E2"));
    list.add(ohms(1, over("E1"), over("S"), 4.9));
    list.add(ohms(1, over("S"), over("E2"), NONE));
    assertThat(bench.grading().open(bench.solve().estimates(list), 1, Set.of())).isEmpty();
    assertThat(bench.findings(list).bridges())
        .extracting(b -> b.a() + b.b())
        .containsExactly("E1S");
  }

  @Test
  void aPadThatItsOwnNetReachesThroughTooMuchIsHighAndJoinsNothing() {
    SmallMap map = map().pad("G3", "GND");
    Findings findings =
        Bench.of(map)
            .findings(
                with(
                    sound(1),
                    ohms(1, over("G1"), over("G3"), NONE),
                    isolation(1, over("G3"), over("G2"), 450)));
    assertThat(findings.boards()).isEmpty();
    assertThat(findings.bridges()).isEmpty();
    assertThat(findings.graded(Grade.OPEN)).isEmpty();
    assertThat(findings.graded(Grade.HIGH)).hasSize(1);
    assertThat(findings.graded(Grade.HIGH).get(0).position()).isEqualTo("G3");
    assertThat(findings.graded(Grade.HIGH).get(0).ohms().orElseThrow().value())
        .isCloseTo(450, within(1e-6));
  }

  /** A signal beside a tied land is read against another pad of the net that the tie reaches. */
  @Test
  void suspectBesideATiedLandIsReadAgainstAProvenPadOfItsNet() {
    SmallMap map =
        new SmallMap()
            .net("GND", Role.GROUND)
            .net("S", Role.SIGNAL)
            .net("T", Role.SIGNAL)
            .pad("E1", "GND")
            .pad("P", "S")
            .pad("Q", "T")
            .pad("E2", "GND")
            .pad("G1", "GND")
            .pad("G2", "GND")
            .tie(Tie.Where.EDGE, "E1", "E2");
    Bench bench = Bench.of(map, "interposer-on-lower", Instruments.ideal(Switching.MATRIX));
    List<Measurement> list = new ArrayList<>();
    list.add(ohms(1, over("G1"), over("G2"), 0.1));
    list.add(residual(1, Kind.RESIDUAL, over("P"), over("G1"), 0));
    list.add(junction(1, over("G1"), over("P"), 0));
    list.add(junction(1, over("G1"), over("Q"), 0));
    list.add(isolation(1, List.of(over("P"), over("Q")), List.of(over("G1")), 0.1));
    list.add(isolation(1, over("P"), over("Q"), NONE));

    assertThat(bench.pairs(list, 1, Need.LOCALISE)).contains(pair("P", "G1"), pair("Q", "G1"));
  }
}
