package org.jointwalk.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.jointwalk.grade.Bench.pair;
import static org.jointwalk.trial.Readings.isolation;
import static org.jointwalk.trial.Readings.junction;
import static org.jointwalk.trial.Readings.ohms;
import static org.jointwalk.trial.Readings.over;
import static org.jointwalk.trial.Readings.residual;
import static org.jointwalk.trial.Readings.under;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
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
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Role;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.SmallMap;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;

/** How joins are found among groups of nets that are read at once. */
class BridgeSearchTest {

  private static final double NONE = Double.POSITIVE_INFINITY;

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
}
