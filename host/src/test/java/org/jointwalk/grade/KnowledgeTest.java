package org.jointwalk.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.jointwalk.grade.Made.calm;
import static org.jointwalk.grade.Made.conducts;
import static org.jointwalk.grade.Made.none;
import static org.jointwalk.grade.Made.unproven;
import static org.jointwalk.trial.Readings.over;
import static org.jointwalk.trial.Readings.point;
import static org.jointwalk.trial.Readings.under;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.Residual;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

class KnowledgeTest {

  private static final int SIGNALS = 100;

  private static SmallMap map() {
    SmallMap map = new SmallMap().net("GND", Role.GROUND).pad("G", "GND").pad("H", "GND");
    for (int i = 0; i < SIGNALS; i++) {
      map.net("S" + i, Role.SIGNAL).pad("P" + i, "S" + i);
    }
    return map;
  }

  private static Assembly onLower() {
    return map().in("interposer-on-lower");
  }

  private static List<PathEstimate> paths(int seating, int read, int lost) {
    List<PathEstimate> paths = new ArrayList<>();
    for (int i = 0; i < read; i++) {
      paths.add(i < lost ? none(seating, "P" + i) : conducts(seating, "P" + i));
    }
    return paths;
  }

  private static Knowledge knowledge(List<PathEstimate> paths) {
    return new Knowledge(onLower(), calm("P0", paths.toArray(new PathEstimate[0])));
  }

  @Test
  void manyMissingPathsInTheFirstSeatingAreATiltedPlate() {
    assertThat(knowledge(paths(1, 20, 6)).poor(1)).isFalse();
    assertThat(knowledge(paths(1, 20, 7)).poor(1)).isTrue();
    assertThat(knowledge(paths(1, 100, 8)).poor(1)).isFalse();
    assertThat(knowledge(paths(1, 100, 9)).poor(1)).isTrue();
  }

  @Test
  void inALaterSeatingOnlyPathsThatWereThereBeforeCountAsMissing() {
    List<PathEstimate> suspects = paths(1, 100, 8);
    suspects.addAll(paths(2, 20, 8));
    assertThat(knowledge(suspects).poor(2)).isFalse();
    List<PathEstimate> one = paths(1, 100, 8);
    for (int i = 8; i < 18; i++) {
      one.add(i == 8 ? none(2, "P" + i) : conducts(2, "P" + i));
    }
    assertThat(knowledge(one).poor(2)).isFalse();
    List<PathEstimate> two = paths(1, 100, 8);
    for (int i = 8; i < 18; i++) {
      two.add(i <= 9 ? none(2, "P" + i) : conducts(2, "P" + i));
    }
    assertThat(knowledge(two).poor(2)).isTrue();
    List<PathEstimate> twoOfMany = paths(1, 100, 8);
    for (int i = 8; i < 38; i++) {
      twoOfMany.add(i <= 9 ? none(2, "P" + i) : conducts(2, "P" + i));
    }
    assertThat(knowledge(twoOfMany).poor(2)).isFalse();
  }

  /** Thirty probes that land for the first time do not excuse two that no longer do. */
  @Test
  void pathsThatAreNewDoNotCountAmongThoseThatWereThere() {
    List<PathEstimate> paths = paths(1, 40, 3);
    for (int i = 0; i < 60; i++) {
      paths.add(none(1, "P" + (40 + i)));
    }
    for (int i = 0; i < 40; i++) {
      paths.add(conducts(2, "P" + (40 + i)));
    }
    paths.add(none(2, "P5"));
    paths.add(none(2, "P6"));
    assertThat(knowledge(paths).poor(2)).isTrue();
  }

  @Test
  void aSeatingWithoutAVoltageReadIsNotTheFirstAndSaysNothing() {
    Estimates estimates =
        new Estimates(
            List.of(unproven(1, "G"), conducts(2, "G"), conducts(2, "P0")),
            List.of(),
            List.of(Made.calm(2, "P0")),
            List.of());
    Knowledge knowledge = new Knowledge(onLower(), estimates);
    assertThat(knowledge.firstSeating()).isEqualTo(2);
    assertThat(knowledge.seatings()).containsExactly(1, 2);
    assertThat(knowledge.poor(1)).isTrue();
    assertThat(knowledge.released(1)).isFalse();
    assertThat(knowledge.poor(2)).isFalse();
    assertThat(knowledge.released(over("P7"), 2)).isTrue();
  }

  @Test
  void voltagesReleaseTheBoardOnWhichTheyWereReadAndNoOther() {
    SmallMap map = map();
    for (Side side : Side.values()) {
      map.point(side + "G", side, "GND").point(side + "S", side, "S0");
    }
    Residual lower = new Residual(1, point("LOWERS"), 0, 0);
    Knowledge knowledge =
        new Knowledge(
            map.in("joined"), new Estimates(List.of(), List.of(), List.of(lower), List.of()));
    assertThat(knowledge.released(point("LOWERG"), 1)).isTrue();
    assertThat(knowledge.released(point("UPPERG"), 1)).isFalse();
    assertThat(knowledge.released(point("LOWERG"), 2)).isFalse();
  }

  @Test
  void nothingHasToBeReleasedInABareInterposer() {
    Knowledge knowledge =
        new Knowledge(
            map().in("interposer"),
            new Estimates(List.of(none(1, "P0")), List.of(), List.of(), List.of()));
    assertThat(knowledge.released(1)).isTrue();
    assertThat(knowledge.released(under("P0"), 1)).isTrue();
    assertThat(knowledge.firstSeating()).isEqualTo(1);
    assertThat(knowledge.poor(1)).isFalse();
  }

  @Test
  void aContactStandsForItsNetOnceAPathWasSeen() {
    Knowledge knowledge = knowledge(List.of(none(1, "P3"), conducts(2, "P3")));
    Node net = Node.OnBoard.of(new NetId(Side.LOWER, "S3"));
    assertThat(knowledge.meets(over("P3"), 1)).isEqualTo(over("P3"));
    assertThat(knowledge.meets(over("P3"), 2)).isEqualTo(net);
    assertThat(knowledge.meets(over("P3"))).isEqualTo(net);
    assertThat(knowledge.meets(over("P4"))).isEqualTo(over("P4"));
    assertThat(knowledge.everConducts(over("P3"))).isTrue();
    assertThat(knowledge.conducts(over("P3"), 1)).isFalse();
    assertThat(knowledge.good()).containsExactly(over("P3"));
    assertThat(knowledge.paths(over("P3"))).hasSize(2);
    assertThat(knowledge.path(over("P3"), 3)).isEmpty();
  }

  @Test
  void sharedMetalStandsForItselfBeforeAnythingIsRead() {
    SmallMap map = map().tie(Tie.Where.EDGE, "G", "H");
    Knowledge knowledge =
        new Knowledge(
            map.in("interposer-on-lower"),
            new Estimates(List.of(), List.of(), List.of(), List.of()));
    assertThat(knowledge.meets(over("G"))).isEqualTo(new Node.OnBoard(Side.LOWER, "GND"));
    assertThat(knowledge.meets(over("G"), 1)).isEqualTo(new Node.OnBoard(Side.LOWER, "GND"));
  }

  @Test
  void conductingContactsAreFoundByTheirHome() {
    Knowledge knowledge = knowledge(List.of(conducts(1, "G"), none(1, "H"), conducts(2, "H")));
    Node ground = new Node.OnBoard(Side.LOWER, "GND");
    assertThat(knowledge.conducting(ground, 1)).containsExactly(over("G"));
    assertThat(knowledge.conducting(ground, 2)).containsExactly(over("H"));
    assertThat(knowledge.conducting(ground, 3)).isEmpty();
    assertThat(knowledge.read(1)).containsExactly(over("G"), over("H"));
  }
}
