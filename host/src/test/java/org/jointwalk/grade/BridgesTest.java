package org.jointwalk.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;
import static org.jointwalk.trial.Readings.isolation;
import static org.jointwalk.trial.Readings.junction;
import static org.jointwalk.trial.Readings.ohms;
import static org.jointwalk.trial.Readings.over;
import static org.jointwalk.trial.Readings.residual;
import static org.jointwalk.trial.Readings.under;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Measurement;
import org.jointwalk.job.Question;
import org.jointwalk.job.Question.Need;
import org.jointwalk.plan.Plan;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.SmallMap;
import org.jointwalk.trial.Trials;
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

  /** A map in a set-up with a fixture. */
  private record Bench(Assembly assembly, Capabilities capabilities, Solve solve) {

    static Bench of(SmallMap map, String setUp, Capabilities capabilities) {
      Assembly assembly = map.in(setUp);
      return new Bench(assembly, capabilities, new Solve(assembly, capabilities, List.of()));
    }

    static Bench of(SmallMap map) {
      return of(map, "interposer-on-lower", Instruments.ideal(Switching.MULTIPLEXER));
    }

    Grading grading() {
      return new Grading(assembly, capabilities, assembly.contacts());
    }

    Findings findings(List<Measurement> list) {
      return grading().findings(solve.estimates(list));
    }

    List<Set<Contact>> pairs(List<Measurement> list, int seating, Need need) {
      List<Question> questions = grading().open(solve.estimates(list), seating, Set.of());
      assertThat(questions).allMatch(q -> q.need() == need);
      return questions.stream().map(q -> Set.copyOf(q.contacts())).toList();
    }
  }

  private static Set<Contact> pair(String a, String b) {
    return Set.of(over(a), over(b));
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

  // Groups

  private static SmallMap many(int signals) {
    SmallMap map = new SmallMap().net("GND", Role.GROUND).pad("G1", "GND").pad("G2", "GND");
    for (int i = 0; i < signals; i++) {
      map.net("N" + i, Role.SIGNAL).pad("Q" + i, "N" + i);
    }
    return map;
  }

  private static List<Measurement> conducting(int signals) {
    List<Measurement> list = new ArrayList<>();
    list.add(ohms(1, over("G1"), over("G2"), 0.1));
    list.add(residual(1, Kind.RESIDUAL, over("Q0"), over("G1"), 0));
    for (int i = 0; i < signals; i++) {
      list.add(junction(1, over("G1"), over("Q" + i), 0));
    }
    return list;
  }

  /** Answers isolation steps of a matrix as a board with these joins would. */
  private static final class Oracle {

    private final Bench bench;
    private final List<Measurement> list;
    private final Set<Set<Contact>> joins;
    private int readings;

    private Oracle(Bench bench, List<Measurement> list, Set<Set<Contact>> joins) {
      this.bench = bench;
      this.list = list;
      this.joins = joins;
    }

    private boolean joins(List<Contact> high, List<Contact> low) {
      return high.stream().anyMatch(a -> low.stream().anyMatch(b -> joins.contains(Set.of(a, b))));
    }

    /** Runs until no question but another seating is open. */
    private Findings run() {
      Plan plan =
          new Plan(
              bench.assembly(), bench.capabilities(), bench.assembly().contacts(), bench.solve());
      for (int round = 0; round < 200; round++) {
        Estimates estimates = bench.solve().estimates(list);
        List<Question> questions = bench.grading().open(estimates, 1, Set.of());
        if (questions.isEmpty()) {
          return bench.grading().findings(estimates);
        }
        plan.scan(questions, estimates, 1)
            .steps()
            .forEach(
                step -> {
                  readings++;
                  double ohms = joins(step.high(), step.low()) ? 3 : NONE;
                  list.add(
                      step.kind() == Kind.ISOLATION
                          ? isolation(1, step.high(), step.low(), ohms)
                          : ohms(1, step.a(), step.b(), ohms));
                });
      }
      throw new AssertionError("the search does not end");
    }
  }

  @Test
  void aJoinOfNeighboursThatAGroupShowsIsFoundAmongThem() {
    Bench bench = Bench.of(many(40), "interposer-on-lower", Instruments.ideal(Switching.MATRIX));
    Oracle oracle = new Oracle(bench, conducting(40), Set.of(pair("Q7", "Q8")));
    Findings findings = oracle.run();
    assertThat(findings.bridges()).extracting(b -> b.a() + b.b()).containsExactly("Q7Q8");
    assertThat(findings.boards()).isEmpty();
  }

  /** Six cuts, of which the join shows in some; halves; and the joined cuts once more. */
  @Test
  void nothingIsReadTwiceOrInVain() {
    Bench bench = Bench.of(many(40), "interposer-on-lower", Instruments.ideal(Switching.MATRIX));
    Oracle oracle = new Oracle(bench, conducting(40), Set.of(pair("Q3", "Q30")));
    assertThat(oracle.run().boards()).hasSize(1);
    Set<Set<Set<Contact>>> read = new HashSet<>();
    int groups = 0;
    for (Measurement m : oracle.list) {
      if (m.step().kind() == Kind.ISOLATION) {
        groups++;
        assertThat(read.add(Set.of(Set.copyOf(m.step().high()), Set.copyOf(m.step().low()))))
            .isTrue();
      }
    }
    assertThat(groups).isBetween(12, 24);
  }

  @Test
  void aSoundBoardNeedsTheBinaryLogarithmOfItsNetsAndNothingMore() {
    Bench bench = Bench.of(many(40), "interposer-on-lower", Instruments.ideal(Switching.MATRIX));
    Oracle oracle = new Oracle(bench, conducting(40), Set.of());
    assertThat(oracle.run().anyFault()).isFalse();
    // Forty signals and ground.
    assertThat(oracle.readings).isEqualTo(6);
  }

  /**
   * After the cuts a halving of both groups names the pair with about twice the binary logarithm of
   * the nets, and the joined cuts are read once more.
   */
  @Test
  void aJoinOfNetsThatAreNoNeighboursIsFoundByHalving() {
    Trials.of(
        40,
        random -> {
          int n = 20 + random.nextInt(60);
          int a = random.nextInt(n);
          int b = random.nextInt(n);
          if (Math.abs(a - b) < 2) {
            return;
          }
          Bench bench =
              Bench.of(many(n), "interposer-on-lower", Instruments.ideal(Switching.MATRIX));
          Oracle oracle = new Oracle(bench, conducting(n), Set.of(pair("Q" + a, "Q" + b)));
          Findings findings = oracle.run();
          assertThat(findings.bridges()).isEmpty();
          assertThat(findings.boards()).hasSize(1);
          BoardFinding board = findings.boards().get(0);
          assertThat(board.fault()).isEqualTo(BoardFinding.Fault.SHORTED);
          String other = board.net().name().equals("N" + a) ? "N" + b : "N" + a;
          assertThat(Set.of("N" + a, "N" + b)).contains(board.net().name());
          assertThat(board.reason()).contains(" to " + other + " ").contains("a good board has no");
          int logarithm = (int) Math.ceil(Math.log(n + 1) / Math.log(2));
          assertThat(oracle.readings).isLessThanOrEqualTo(4 * logarithm + 1 + 8);
        });
  }

  @Test
  void onABareInterposerAJoinOfPositionsThatAreNoNeighboursIsNamedByThem() {
    Bench bench = Bench.of(many(30), "interposer", Instruments.ideal(Switching.MATRIX));
    List<Measurement> list = new ArrayList<>();
    bench
        .assembly()
        .map()
        .positions()
        .keySet()
        .forEach(id -> list.add(ohms(1, over(id), under(id), 0.01)));
    Oracle oracle = new Oracle(bench, list, Set.of(pair("Q3", "Q21")));
    Findings findings = oracle.run();
    assertThat(findings.bridges()).extracting(b -> b.a() + b.b()).containsExactly("Q21Q3");
    assertThat(findings.graded(Grade.BRIDGED)).hasSize(2);
  }

  /** What is found ties together exactly the nets that are joined, directly or through others. */
  @Test
  void severalJoinsAreFoundToTheLast() {
    Trials.of(
        40,
        random -> {
          int n = 12 + random.nextInt(40);
          Set<Set<Contact>> joins = new HashSet<>();
          int wanted = 1 + random.nextInt(5);
          while (joins.size() < wanted) {
            int a = random.nextInt(n - 1);
            int b = random.nextBoolean() ? a + 1 : a + 1 + random.nextInt(n - a - 1);
            joins.add(pair("Q" + a, "Q" + b));
          }
          Bench bench =
              Bench.of(many(n), "interposer-on-lower", Instruments.ideal(Switching.MATRIX));
          Findings findings = new Oracle(bench, conducting(n), joins).run();
          Set<Set<Contact>> found = new HashSet<>();
          for (BridgeFinding bridge : findings.bridges()) {
            found.add(pair(bridge.a(), bridge.b()));
          }
          for (BoardFinding board : findings.boards()) {
            Matcher names =
                Pattern.compile("^N(\\d+) reads .* to N(\\d+) ").matcher(board.reason());
            assertThat(names.find()).isTrue();
            found.add(pair("Q" + names.group(1), "Q" + names.group(2)));
          }
          assertThat(joins).containsAll(found);
          for (int i = 0; i < n; i++) {
            assertThat(tiedTo(over("Q" + i), found)).isEqualTo(tiedTo(over("Q" + i), joins));
          }
        });
  }

  private static Set<Contact> tiedTo(Contact start, Set<Set<Contact>> pairs) {
    Set<Contact> tied = new HashSet<>(Set.of(start));
    boolean grows = true;
    while (grows) {
      grows = false;
      for (Set<Contact> pair : pairs) {
        if (pair.stream().anyMatch(tied::contains)) {
          grows |= tied.addAll(pair);
        }
      }
    }
    return tied;
  }

  @Test
  void aGroupWhoseJoinWasNotFoundBeforeThePassEndedIsStillTold() {
    Bench bench = Bench.of(many(8), "interposer-on-lower", Instruments.ideal(Switching.MATRIX));
    List<Measurement> list = conducting(8);
    List<Contact> high = List.of(over("Q0"), over("Q1"));
    list.add(isolation(1, high, List.of(over("Q4"), over("Q6"), over("Q7")), 3));
    List<BoardFinding> boards = bench.findings(list).boards();
    assertThat(boards).hasSize(1);
    assertThat(boards.get(0).net().name()).isEqualTo("N0");
    assertThat(boards.get(0).reason())
        .contains("no neighbours")
        .contains("N0 or one of 1 read with it")
        .contains("one of 3 others");
  }

  @Test
  void aGroupIsNotHalvedInAnotherSeating() {
    Bench bench = Bench.of(many(8), "interposer-on-lower", Instruments.ideal(Switching.MATRIX));
    List<Measurement> list = conducting(8);
    list.add(isolation(1, List.of(over("Q0")), List.of(over("Q4"), over("Q6")), 3));
    Map<Integer, List<Need>> needs =
        Map.of(
            1,
            bench.grading().open(bench.solve().estimates(list), 1, Set.of(Need.ISOLATION)).stream()
                .map(Question::need)
                .toList(),
            2,
            bench
                .grading()
                .open(
                    bench.solve().estimates(list),
                    2,
                    Set.of(Need.SAFETY, Need.PATH, Need.ISOLATION))
                .stream()
                .map(Question::need)
                .toList());
    assertThat(needs.get(1)).containsExactly(Need.LOCALISE);
    assertThat(needs.get(2)).isEmpty();
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
