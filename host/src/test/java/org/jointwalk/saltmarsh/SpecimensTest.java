package org.jointwalk.saltmarsh;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import org.jointwalk.files.Names;
import org.jointwalk.job.Action;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.junit.jupiter.api.Test;

class SpecimensTest {

  private static final int STACKS = 300;

  private final PadMap map = SaltmarshS2.unlearned();

  @Test
  void sameSeedBreaksTheSameWay() {
    assertThat(Specimens.broken(map, 5)).isEqualTo(Specimens.broken(map, 5));
    assertThat(Specimens.broken(map, 5).defects()).isNotEqualTo(Specimens.broken(map, 6).defects());
  }

  @Test
  void stackHasAsManyFaultsAsAskedFor() {
    for (int faults = 0; faults <= Specimens.MOST_FAULTS; faults++) {
      assertThat(Specimens.defects(map, faults, new SplittableRandom(faults)).conditions())
          .hasSize(faults);
    }
  }

  @Test
  void faultsOfASetUpLieInTheFixture() {
    SetUp setUp = SetUp.named("interposer-on-lower").orElseThrow();
    Set<String> kinds = new HashSet<>();
    for (int seed = 0; seed < STACKS; seed++) {
      Specimens.defects(map, setUp, 8, new SplittableRandom(seed)).conditions().keySet().stream()
          .map(Names::of)
          .map(name -> name.replaceAll("(joint|pad|via|net|bridge|hidden) .*", "$1"))
          .forEach(kinds::add);
    }

    assertThat(kinds)
        .containsExactlyInAnyOrder(
            "lower joint",
            "lower pad",
            "via",
            "lower net",
            "lower bridge",
            "upper bridge",
            "lower hidden");
  }

  @Test
  void everyKindOfFaultOccursOnBothSides() {
    Set<Class<?>> conditions = new HashSet<>();
    Set<Class<?>> components = new HashSet<>();
    Set<Side> joints = new HashSet<>();
    Set<Side> pads = new HashSet<>();
    Set<Side> bridges = new HashSet<>();
    for (Specimen stack : stacks()) {
      stack
          .defects()
          .conditions()
          .forEach(
              (component, condition) -> {
                components.add(component.getClass());
                conditions.add(condition.getClass());
                if (component instanceof Component.Joint joint) {
                  joints.add(joint.side());
                } else if (component instanceof Component.Pad pad) {
                  pads.add(pad.side());
                } else if (component instanceof Component.Bridge bridge) {
                  bridges.add(bridge.side());
                }
              });
    }

    assertThat(conditions)
        .containsExactlyInAnyOrder(
            Condition.Open.class,
            Condition.High.class,
            Condition.TwoState.class,
            Condition.Bridged.class,
            Condition.Shorted.class,
            Condition.Abnormal.class,
            Condition.Dead.class);
    assertThat(components)
        .containsExactlyInAnyOrder(
            Component.Pad.class,
            Component.Joint.class,
            Component.Via.class,
            Component.NetOf.class,
            Component.Bridge.class,
            Component.Hidden.class);
    assertThat(List.of(joints, pads, bridges)).allMatch(sides -> sides.size() == 2);
  }

  @Test
  void bridgesJoinNeighboursOnDifferentNets() {
    for (Specimen stack : stacks()) {
      for (Component component : stack.defects().conditions().keySet()) {
        if (component instanceof Component.Bridge bridge) {
          Position a = map.position(bridge.a());
          Position b = map.position(bridge.b());
          assertThat(a.distanceMm(b)).isLessThan(1.5 * Ring.PITCH_MM);
          assertThat(a.net(bridge.side())).isNotEqualTo(b.net(bridge.side()));
        }
      }
    }
  }

  @Test
  void damageIsClusteredInSomeStacksAndScatteredInOthers() {
    int close = 0;
    int wide = 0;
    for (int seed = 0; seed < STACKS; seed++) {
      Set<Position> struck = new HashSet<>();
      Specimens.defects(map, 12, new SplittableRandom(seed))
          .conditions()
          .keySet()
          .forEach(
              component -> {
                if (component instanceof Component.Joint joint) {
                  struck.add(map.position(joint.position()));
                }
              });
      double spread = medianDistance(struck);
      if (spread < 3) {
        close++;
      } else if (spread > 8) {
        wide++;
      }
    }

    assertThat(close).isGreaterThan(STACKS / 10);
    assertThat(wide).isGreaterThan(STACKS / 4);
  }

  @Test
  void chargedStackHasOneRailBetween200MillivoltAndItsNominal() {
    for (int seed = 0; seed < STACKS; seed++) {
      Specimens.charged(map, new SplittableRandom(seed))
          .conditions()
          .forEach(
              (component, condition) -> {
                Component.NetOf rail = (Component.NetOf) component;
                double nominal = map.net(rail.net()).nominal().orElseThrow().value();
                assertThat(((Condition.Charged) condition).volts()).isBetween(0.2, nominal);
              });
    }
  }

  @Test
  void badProbesAreAsManyAsAskedForAndNothingElseIsWrong() {
    Set<Class<?>> conditions = new HashSet<>();
    Specimens.badProbes(map, 30, new SplittableRandom(1))
        .conditions()
        .forEach(
            (component, condition) -> {
              assertThat(component).isInstanceOf(Component.Probe.class);
              conditions.add(condition.getClass());
            });

    assertThat(Specimens.badProbes(map, 30, new SplittableRandom(1)).conditions()).hasSize(30);
    assertThat(conditions).hasSize(3);
  }

  /** A campaign must not ask the simulator for what it cannot lay. */
  @Test
  void everyRandomStackCanBeClamped() {
    for (Specimen stack : stacks().subList(0, 40)) {
      VirtualFixture fixture =
          new VirtualFixture(
              map, stack, FixtureMaps.photoRelay(map), VirtualFixture.Conditions.CALM);
      for (String name : List.of("upper-board", "interposer-on-lower")) {
        fixture.clamp(SetUp.named(name).orElseThrow(), List.of(new Action.Split(Side.UPPER)));
        assertThat(fixture.clamping().lid()).isPositive();
      }
    }
  }

  private List<Specimen> stacks() {
    return java.util.stream.LongStream.range(0, STACKS)
        .mapToObj(seed -> Specimens.broken(map, seed))
        .toList();
  }

  private static double medianDistance(Set<Position> places) {
    double[] distances =
        places.stream()
            .flatMapToDouble(
                a -> places.stream().filter(b -> !b.equals(a)).mapToDouble(a::distanceMm))
            .sorted()
            .toArray();
    return distances.length == 0 ? 0 : distances[distances.length / 2];
  }
}
