package org.jointwalk.solve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

class JoinsTest {

  private static final Node GND = new Node.OnBoard(Side.LOWER, "GND");
  private static final Node VCC = new Node.OnBoard(Side.LOWER, "VCC");
  private static final Node A = new Node.OnBoard(Side.LOWER, "A");
  private static final Node B = new Node.OnBoard(Side.LOWER, "B");

  private static SmallMap map() {
    return new SmallMap()
        .net("GND", Role.GROUND)
        .net("VCC", Role.RAIL)
        .net("A", Role.SIGNAL)
        .net("B", Role.SIGNAL)
        .pad("G", "GND")
        .resistor("VCC", "GND", 1000);
  }

  private static Estimate ohms(double value, double u) {
    return Estimate.known(value, u);
  }

  private static double explained(Joins joins, Node a, Node b) {
    return joins.withoutJoin(a, b, joins.settle());
  }

  @Test
  void withoutJoinsTheLoadsOfAGoodBoardExplainWhatIsRead() {
    Joins joins = new Joins(new Expected(map().in("lower-board")));
    joins.add(VCC, GND, ohms(990, 1));
    assertThat(explained(joins, VCC, GND)).isCloseTo(1e-3, within(1e-12));
    assertThat(explained(joins, A, GND)).isZero();
    assertThat(joins.known(List.of(A, VCC), List.of(B, GND), joins.settle())).isZero();
  }

  /** Two thirds of the usual resistance, two uncertainties below it. */
  @Test
  void whatReadsWellBelowItsLoadIsAJoinThatExplainsOthers() {
    double[] values = {600, 640, 655, 690};
    for (double value : values) {
      Joins joins = new Joins(new Expected(map().in("lower-board")));
      joins.add(VCC, GND, ohms(value, 10));
      joins.add(A, VCC, ohms(5, 0.1));
      double toGround = 1 / explained(joins, A, GND);
      if (value + 20 < 1000 / 1.5) {
        double parallel = 1 / (1 / value + 1e-3);
        assertThat(toGround).as("%s", value).isCloseTo(5 + parallel, within(0.01));
      } else {
        assertThat(toGround).as("%s", value).isCloseTo(1005, within(0.01));
      }
      assertThat(explained(joins, VCC, GND)).isCloseTo(1e-3, within(1e-12));
    }
  }

  @Test
  void ofSeveralReadingsOfTwoNodesTheLeastCounts() {
    for (double[] order : new double[][] {{5, 9}, {9, 5}}) {
      Joins joins = new Joins(new Expected(map().in("lower-board")));
      for (double value : order) {
        joins.add(A, GND, ohms(value, 0));
      }
      joins.add(B, A, ohms(3, 0));
      assertThat(1 / explained(joins, B, GND)).isCloseTo(8, within(1e-9));
      assertThat(explained(joins, A, GND)).isZero();
    }
  }

  @Test
  void aDeadShortCountsAsAMilliohm() {
    Joins joins = new Joins(new Expected(map().in("lower-board")));
    joins.add(A, GND, ohms(0, 0));
    assertThat(1 / explained(joins, A, GND)).isInfinite();
    assertThat(joins.known(List.of(A), List.of(GND), joins.settle())).isCloseTo(1000, within(1e-6));
  }

  @Test
  void whatJoinsAddComesOnTopOfWhatWasLearned() {
    Expected learned =
        new Expected(
            map()
                .resistor("A", "VCC", 2000)
                .reference(new Reference.ToGround(new NetId(Side.LOWER, "A"), new Ohms(6000), 0, 3))
                .in("lower-board"));
    Joins joins = new Joins(learned);
    joins.add(VCC, GND, ohms(1, 0));
    // By loads 3,000 ohm before and 2,001 after; learned were 6,000.
    double added = 1 / 2000.999 - 1 / 3000.0;
    assertThat(explained(joins, A, GND))
        .isCloseTo(Math.max(1 / 6000.0 + added, 1 / 2000.999), within(1e-9));
    Joins elsewhere = new Joins(learned);
    elsewhere.add(B, GND, ohms(1, 0));
    assertThat(explained(elsewhere, A, GND)).isCloseTo(1 / 6000.0, within(1e-12));
  }

  @Test
  void groupsKnowWhatEveryPairOfThemConducts() {
    Joins joins = new Joins(new Expected(map().in("lower-board")));
    joins.add(A, VCC, ohms(10, 0));
    double toGround = 1 / 1010.0;
    assertThat(joins.known(List.of(A, B), List.of(GND), joins.settle()))
        .isCloseTo(toGround, within(1e-9));
    assertThat(joins.known(List.of(A, VCC), List.of(GND, B), joins.settle()))
        .isCloseTo(toGround + 1e-3, within(1e-9));
  }
}
