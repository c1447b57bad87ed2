package org.jointwalk.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.jointwalk.trial.Readings.over;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Measurement;
import org.jointwalk.job.Question;
import org.jointwalk.job.Question.Need;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.Readings;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

class IsolationTest {

  private static SmallMap signals(int n) {
    SmallMap map = new SmallMap().net("GND", Role.GROUND).pad("G1", "GND").pad("G2", "GND");
    for (int i = 0; i < n; i++) {
      map.net("S" + i, Role.SIGNAL).pad("P" + i, "S" + i);
    }
    return map;
  }

  private static List<String> ids(int n) {
    return IntStream.range(0, n).mapToObj(i -> "P" + i).toList();
  }

  /** A plan's isolation, when every contact named has shown a path to ground. */
  private record Bench(Isolation isolation, Proven proven) {

    static Bench of(SmallMap map, Switching switching, List<String> conducting) {
      Assembly assembly = map.in("interposer-on-lower");
      Capabilities capabilities = Instruments.ideal(switching);
      Solve solve = new Solve(assembly, capabilities, List.of());
      List<Measurement> list = new ArrayList<>();
      list.add(Readings.ohms(1, over("G1"), over("G2"), 0.1));
      conducting.forEach(id -> list.add(Readings.junction(1, over("G1"), over(id), 0)));
      Estimates estimates = solve.estimates(list);
      return new Bench(
          new Isolation(assembly, capabilities, new Steps(assembly, capabilities), solve),
          new Proven(assembly, estimates, 1));
    }

    List<Step> steps(List<Question> questions) {
      return isolation.steps(questions, proven);
    }

    List<Step> cuts(List<String> ids) {
      Set<Contact> free = new LinkedHashSet<>();
      ids.forEach(id -> free.add(over(id)));
      return isolation.cuts(free, proven);
    }
  }

  private static Question pair(String a, String b) {
    return new Question(Need.ISOLATION, List.of(over(a), over(b)));
  }

  private static List<Question> allPairs(List<String> ids) {
    List<Question> questions = new ArrayList<>();
    for (int i = 0; i < ids.size(); i++) {
      for (int j = i + 1; j < ids.size(); j++) {
        questions.add(pair(ids.get(i), ids.get(j)));
      }
    }
    return questions;
  }

  private static boolean separates(Step step, Contact a, Contact b) {
    return (step.high().contains(a) && step.low().contains(b))
        || (step.high().contains(b) && step.low().contains(a));
  }

  static Stream<Integer> counts() {
    return Stream.concat(
        IntStream.rangeClosed(2, 70).boxed(), Stream.of(127, 128, 129, 255, 256, 257));
  }

  /** Kautz 1974, IEEE Transactions on Computers C-23:358, for the count (value from memory). */
  @ParameterizedTest
  @MethodSource("counts")
  void theBinaryLogarithmOfTheNetsIsEnoughToPartEveryTwoOfThem(int n) {
    List<String> ids = ids(n);
    List<Step> cuts = Bench.of(signals(n), Switching.MATRIX, ids).cuts(ids);
    assertThat(cuts).hasSize((int) Math.ceil(Math.log(n) / Math.log(2) - 1e-9));
    for (Question question : allPairs(ids)) {
      Contact a = question.contacts().get(0);
      Contact b = question.contacts().get(1);
      assertThat(cuts).as("%s and %s", a, b).anyMatch(cut -> separates(cut, a, b));
    }
    for (Step cut : cuts) {
      assertThat(cut.kind()).isEqualTo(Kind.ISOLATION);
      assertThat(cut.high().size() + cut.low().size()).isEqualTo(n);
    }
  }

  @Test
  void oneNetNeedsNoCut() {
    assertThat(Bench.of(signals(1), Switching.MATRIX, ids(1)).cuts(ids(1))).isEmpty();
  }

  @Test
  void aNetOfManyPadsStandsOnceAndAPadWithoutPathForItself() {
    SmallMap map = signals(3).pad("X1", "S0").pad("X2", "S0").pad("X3", "S0");
    Bench bench = Bench.of(map, Switching.MATRIX, List.of("P0", "P1", "P2", "X1", "X2"));
    List<Step> cuts = bench.cuts(List.of("P0", "P1", "P2", "X1", "X2", "X3"));
    Assembly assembly = map.in("interposer-on-lower");
    for (Step cut : cuts) {
      List<Contact> all = new ArrayList<>(cut.high());
      all.addAll(cut.low());
      assertThat(all).contains(over("X3")).doesNotContain(over("X1"), over("X2"));
      Set<Object> high = new LinkedHashSet<>();
      cut.high().stream().filter(c -> !c.equals(over("X3"))).map(assembly::home).forEach(high::add);
      assertThat(cut.low().stream().filter(c -> !c.equals(over("X3"))).map(assembly::home))
          .noneMatch(high::contains);
    }
    assertThat(cuts).anyMatch(cut -> separates(cut, over("P0"), over("X3")));
  }

  @ParameterizedTest
  @EnumSource(Switching.class)
  void onlyAMatrixReadsGroups(Switching switching) {
    List<String> ids = ids(20);
    List<Step> steps = Bench.of(signals(20), switching, ids).steps(allPairs(ids));
    if (switching == Switching.MATRIX) {
      assertThat(steps).hasSize(5);
    } else {
      assertThat(steps).hasSize(190).allMatch(Step::isPair);
    }
  }

  @Test
  void aFewPairsAreReadOneByOneEvenOnAMatrix() {
    List<String> ids = ids(16);
    Bench bench = Bench.of(signals(16), Switching.MATRIX, ids);
    List<Question> chain = new ArrayList<>();
    for (int i = 0; i + 1 < 16; i++) {
      chain.add(pair("P" + i, "P" + (i + 1)));
    }
    // Sixteen nets need four cuts; eight pairs are not worth them, nine are.
    assertThat(bench.steps(chain)).hasSize(4);
    List<Question> two = List.of(pair("P0", "P1"), pair("P2", "P3"));
    assertThat(bench.steps(two)).hasSize(2).allMatch(Step::isPair);
    List<Question> four = new ArrayList<>(allPairs(ids.subList(0, 4)));
    assertThat(bench.steps(four.subList(0, 4))).allMatch(Step::isPair);
    assertThat(bench.steps(four.subList(0, 5))).noneMatch(Step::isPair);
  }

  /** Four free pairs are not worth two cuts, however many loaded ones there are beside them. */
  @Test
  void onlyThePairsThatCouldBeGroupedCountForGrouping() {
    SmallMap map = signals(12);
    for (int i = 4; i < 12; i++) {
      map.resistor("S" + i, "GND", 10_000);
    }
    List<Question> questions = new ArrayList<>(allPairs(ids(4)).subList(0, 4));
    for (int i = 4; i + 1 < 12; i++) {
      questions.add(pair("P" + i, "P" + (i + 1)));
    }
    assertThat(Bench.of(map, Switching.MATRIX, ids(12)).steps(questions))
        .hasSize(11)
        .allMatch(Step::isPair);
  }

  @Test
  void netsThatAGoodBoardJoinsStayOutOfTheGroups() {
    SmallMap map =
        signals(8)
            .net("VCC", Role.RAIL)
            .pad("V", "VCC")
            .resistor("S0", "S1", 10_000)
            .load(new Load.Junction(Side.LOWER, "GND", "S2", Load.Material.SCHOTTKY))
            .load(new Load.Junction(Side.LOWER, "GND", "S3", Load.Material.SILICON))
            .load(new Load.Capacitor(Side.LOWER, "S4", "GND", 1e-11))
            .load(new Load.Unknown(Side.LOWER, "S5", "GND"));
    List<String> ids = new ArrayList<>(ids(8));
    ids.add("V");
    ids.add("G1");
    List<Step> steps = Bench.of(map, Switching.MATRIX, ids(8)).steps(allPairs(ids));
    Set<Contact> grouped = new LinkedHashSet<>();
    steps.stream()
        .filter(s -> !s.isPair())
        .forEach(
            s -> {
              grouped.addAll(s.high());
              grouped.addAll(s.low());
            });
    assertThat(grouped)
        .containsExactlyInAnyOrder(
            over("P3"), over("P4"), over("P5"), over("P6"), over("P7"), over("G1"));
    for (String alone : List.of("P0", "P1", "P2", "V")) {
      assertThat(steps.stream().filter(s -> s.isPair()))
          .filteredOn(s -> s.high().contains(over(alone)) || s.low().contains(over(alone)))
          .hasSize(9);
    }
  }

  @Test
  void aSmallLoadIsReadAtTheCurrentOfAResistanceStep() {
    SmallMap map = signals(2).net("VCC", Role.RAIL).net("VDD", Role.RAIL);
    map.pad("V", "VCC").pad("D", "VDD").resistor("VCC", "GND", 99).resistor("VDD", "GND", 101);
    List<Step> steps =
        Bench.of(map, Switching.MULTIPLEXER, List.of())
            .steps(List.of(pair("V", "G1"), pair("D", "G1"), pair("P0", "P1")));
    assertThat(steps)
        .extracting(Step::kind)
        .containsExactly(Kind.LOW_LEVEL, Kind.ISOLATION, Kind.ISOLATION);
  }

  @Test
  void placesAreReadAsPairsAndGroupsAsTheyAreAsked() {
    Bench bench = Bench.of(signals(6), Switching.MATRIX, ids(6));
    Question group =
        new Question(
            Need.LOCALISE, List.of(over("P0")), List.of(over("P1"), over("P2"), over("P3")));
    List<Step> steps = bench.isolation().places(List.of(pair("P4", "P5"), group));
    assertThat(steps)
        .extracting(Step::kind)
        .containsExactly(Kind.ISOLATION, Kind.LOW_LEVEL, Kind.ISOLATION);
    assertThat(steps.get(0).isPair() && steps.get(1).isPair()).isTrue();
    assertThat(steps.get(2).high()).containsExactly(over("P0"));
    assertThat(steps.get(2).low()).containsExactly(over("P1"), over("P2"), over("P3"));
  }
}
