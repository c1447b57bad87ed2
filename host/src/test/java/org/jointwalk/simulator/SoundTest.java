package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import java.util.Optional;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Face;
import org.jointwalk.stack.Link;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.Test;

class SoundTest {

  private static Sound sound(long seed, double warmer) {
    return new Sound(new Draw(seed), Map.of(Side.UPPER, warmer, Side.LOWER, warmer));
  }

  private static Load.Junction junction(int k, Load.Material material) {
    return new Load.Junction(Side.LOWER, "GND", "NET" + k, material);
  }

  private static double drop(Sound sound, Load.Junction junction, double times) {
    Network network = new Network();
    int a = network.node();
    int b = network.node();
    network.junction(a, b, sound.diode(junction, times));
    return new Solver(network, network.pattern(0, Optional.empty()))
        .drive(a, b, 0.224e-3, 5, 0)
        .volts();
  }

  private static double sd(DoubleStream values) {
    double[] all = values.toArray();
    double mean = DoubleStream.of(all).average().orElseThrow();
    return Math.sqrt(
        DoubleStream.of(all).map(v -> (v - mean) * (v - mean)).sum() / (all.length - 1));
  }

  @Test
  void dropsLieWhereTheirMaterialPutsThem() {
    Sound sound = sound(1, 0);
    for (int k = 0; k < 200; k++) {
      assertThat(drop(sound, junction(k, Load.Material.SILICON), 1)).isBetween(0.42, 0.73);
      assertThat(drop(sound, junction(k, Load.Material.SCHOTTKY), 1)).isBetween(0.12, 0.33);
    }
  }

  @Test
  void goodBoardsOfAModelDifferByMillivoltsAndItsNetsByMore() {
    for (int k = 0; k < 20; k++) {
      Load.Junction junction = junction(k, Load.Material.SILICON);

      assertThat(
              sd(LongStream.range(0, 100).mapToDouble(seed -> drop(sound(seed, 0), junction, 1))))
          .isBetween(0.0012, 0.011);
    }
    assertThat(
            sd(
                IntStream.range(0, 100)
                    .mapToDouble(k -> drop(sound(1, 0), junction(k, Load.Material.SILICON), 1))))
        .isGreaterThan(0.05);
  }

  @Test
  void warmthLowersADropByTwoMillivoltsAKelvin() {
    Load.Junction junction = junction(3, Load.Material.SILICON);

    assertThat(drop(sound(1, 5), junction, 1) - drop(sound(1, 0), junction, 1))
        .isCloseTo(-0.010, within(1e-6));
  }

  @Test
  void twiceTheImpedanceCarriesHalfTheCurrent() {
    Load.Junction junction = junction(3, Load.Material.SILICON);
    Diode good = sound(1, 0).diode(junction, 1);
    Diode twice = sound(1, 0).diode(junction, 2);

    assertThat(twice.amps(twice.inner(0.6), 0.6))
        .isCloseTo(good.amps(good.inner(0.6), 0.6) / 2, within(1e-11));
  }

  @Test
  void goodJointsLieBetweenATenthOfAMilliohmAndOneAndABit() {
    Sound sound = sound(1, 0);
    double[] ohms =
        IntStream.range(0, 1000)
            .mapToDouble(
                k -> {
                  String id = "P" + k;
                  Link joint =
                      new Link(
                          Optional.of(new Component.Joint(Side.LOWER, id)),
                          new Node.Land(id, Face.LOWER_PAD),
                          new Node.Land(id, Face.BOTTOM_LAND),
                          new Ohms(0.0005));
                  return sound.ohms(joint);
                })
            .toArray();

    assertThat(DoubleStream.of(ohms).boxed()).allMatch(r -> r > 0.1e-3 && r < 1.4e-3);
    assertThat(sd(DoubleStream.of(ohms).map(Math::log))).isCloseTo(0.3, within(0.03));
  }
}
