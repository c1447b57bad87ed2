package org.jointwalk.solve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.assertj.core.data.Offset;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.trial.SmallMap;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;

class ExpectedTest {

  private static final Offset<Double> EXACT = within(1e-9);

  private static SmallMap map() {
    return new SmallMap()
        .net("GND", Role.GROUND)
        .net("VCC", Role.RAIL)
        .net("A", Role.SIGNAL)
        .net("B", Role.SIGNAL)
        .pad("G", "GND")
        .pad("V", "VCC")
        .pad("A", "A")
        .pad("B", "B");
  }

  private static Node lower(String name) {
    return new Node.OnBoard(Side.LOWER, name);
  }

  private static double ohms(Expected expected, String a, String b) {
    return 1 / expected.between(lower(a), lower(b));
  }

  @Test
  void seriesAddsAndParallelDoesNot() {
    Expected expected =
        new Expected(
            map()
                .resistor("A", "A_CHIP", 100)
                .resistor("A_CHIP", "VCC", 200)
                .resistor("VCC", "GND", 60)
                .resistor("VCC", "GND", 30)
                .in("lower-board"));
    assertThat(ohms(expected, "A", "VCC")).isCloseTo(300, EXACT);
    assertThat(ohms(expected, "VCC", "GND")).isCloseTo(20, EXACT);
    assertThat(ohms(expected, "A", "GND")).isCloseTo(320, EXACT);
    assertThat(ohms(expected, "GND", "A")).isCloseTo(320, EXACT);
    assertThat(expected.between(lower("A"), lower("B"))).isZero();
    assertThat(expected.between(lower("A"), lower("A"))).isZero();
    assertThat(expected.between(lower("A"), new Node.OnBoard(Side.UPPER, "GND"))).isZero();
  }

  @Test
  void coilsAreWiresAndOnlySchottkyJunctionsCountNearZeroVolt() {
    Expected expected =
        new Expected(
            map()
                .load(new Load.Inductor(Side.LOWER, "A", "VCC", new Ohms(0.5)))
                .load(new Load.Junction(Side.LOWER, "GND", "B", Load.Material.SCHOTTKY))
                .load(new Load.Junction(Side.LOWER, "GND", "VCC", Load.Material.SILICON))
                .load(new Load.Capacitor(Side.LOWER, "VCC", "GND", 1e-5))
                .load(new Load.Unknown(Side.LOWER, "A", "GND"))
                .in("lower-board"));
    assertThat(ohms(expected, "A", "VCC")).isCloseTo(0.5, EXACT);
    assertThat(ohms(expected, "GND", "B")).isCloseTo(1000, EXACT);
    assertThat(expected.between(lower("VCC"), lower("GND"))).isZero();
  }

  @Test
  void aLoadFromANetToItselfAndOneOfNothingDoNoHarm() {
    Expected expected =
        new Expected(map().resistor("A", "A", 5).resistor("B", "GND", 0).in("lower-board"));
    assertThat(expected.between(lower("A"), lower("B"))).isZero();
    assertThat(expected.between(lower("B"), lower("GND"))).isCloseTo(1000, EXACT);
  }

  @Test
  void whatWasLearnedComesBeforeTheMapsLoads() {
    SmallMap learned =
        map()
            .resistor("VCC", "GND", 60)
            .reference(new Reference.ToGround(new NetId(Side.LOWER, "VCC"), new Ohms(47), 0.1, 5));
    Expected alone = new Expected(learned.in("lower-board"));
    assertThat(ohms(alone, "VCC", "GND")).isCloseTo(47, EXACT);
    assertThat(ohms(alone, "GND", "VCC")).isCloseTo(47, EXACT);
    assertThat(alone.between(lower("VCC"), new Node.OnBoard(Side.UPPER, "GND"))).isZero();
  }

  @Test
  void theJoinedStackConductsThroughBothBoards() {
    SmallMap both =
        map()
            .resistor("VCC", "GND", 60)
            .load(new Load.Resistor(Side.UPPER, "VCC", "GND", new Ohms(30)))
            .reference(new Reference.ToGround(new NetId(Side.LOWER, "VCC"), new Ohms(60), 0.1, 5));
    assertThat(ohms(new Expected(both.in("joined")), "VCC", "GND")).isCloseTo(20, within(0.01));
    assertThat(ohms(new Expected(both.in("lower-board")), "VCC", "GND")).isCloseTo(60, EXACT);
  }

  @Test
  void aFoundConductorIsAddedToTheLoadsAndJoinsParts() {
    Expected good =
        new Expected(
            map()
                .resistor("A", "VCC", 1000)
                .resistor("VCC", "GND", 1000)
                .resistor("B", "B_CHIP", 47)
                .reference(
                    new Reference.ToGround(new NetId(Side.LOWER, "A"), new Ohms(1900), 0.1, 5))
                .in("lower-board"));
    assertThat(ohms(good, "A", "GND")).isCloseTo(1900, EXACT);
    assertThat(1 / good.byLoads(lower("A"), lower("GND"))).isCloseTo(2000, EXACT);
    Expected shorted =
        good.with(new Expected.Wire(lower("VCC"), lower("GND"), 1))
            .with(new Expected.Wire(lower("B"), lower("A"), 0.5));
    assertThat(1 / shorted.byLoads(lower("A"), lower("GND")))
        .isCloseTo(1000 + 1 / 1.001, within(1e-6));
    assertThat(1 / shorted.byLoads(lower("B_CHIP"), lower("VCC"))).isCloseTo(1049, within(1e-6));
    assertThat(good.byLoads(lower("B"), lower("A"))).isZero();
  }

  /**
   * Foster's theorem (1949, value from memory): over the edges of a connected network of n nodes
   * the ratios of effective to own resistance add up to n - 1.
   */
  @Test
  void ratiosOfEffectiveToOwnResistanceAddUpToTheNodesLessOne() {
    Trials.of(
        40,
        random -> {
          int n = 3 + random.nextInt(12);
          SmallMap map = map();
          List<Load.Resistor> edges = new ArrayList<>();
          for (int i = 1; i < n; i++) {
            for (int j = 0; j < i; j++) {
              if (j == 0 || random.nextInt(3) == 0) {
                double ohms = Math.exp(random.nextDouble(-2, 8));
                edges.add(new Load.Resistor(Side.LOWER, "X" + i, "X" + j, new Ohms(ohms)));
              }
            }
          }
          edges.forEach(map::load);
          Expected expected = new Expected(map.in("lower-board"));
          double sum =
              edges.stream()
                  .mapToDouble(e -> ohms(expected, e.from(), e.to()) / e.ohms().value())
                  .sum();
          assertThat(sum).isCloseTo(n - 1, within(1e-6));
        });
  }
}
