package org.jointwalk.saltmarsh;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.quantity.Amps;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

class LearnTest {

  private static PadMap map = Ring.of(120, 3, 3);
  private static final Map<NetId, Reference.Drop> DROPS = new HashMap<>();
  private static final Map<NetId, Reference.ToGround> TO_GROUND = new HashMap<>();

  @BeforeAll
  static void learn() throws FixtureException {
    map = Learn.learned(map, 12, Learn.virtual(map));
    for (Reference reference : map.references()) {
      if (reference instanceof Reference.Drop drop) {
        DROPS.put(drop.net(), drop);
      } else if (reference instanceof Reference.ToGround toGround) {
        TO_GROUND.put(toGround.net(), toGround);
      }
    }
  }

  @Test
  void everySignalWithADirectPathHasADropAndEveryRailAResistance() {
    Set<NetId> signals = new HashSet<>();
    Set<NetId> rails = new HashSet<>();
    map.nets()
        .forEach(
            (id, net) -> {
              if (net.role() == Role.SIGNAL && net.dcPath()) {
                signals.add(id);
              } else if (net.role() == Role.RAIL) {
                rails.add(id);
              }
            });

    assertThat(DROPS.keySet()).isEqualTo(signals);
    assertThat(TO_GROUND.keySet()).containsAll(rails);
  }

  @Test
  void dropsGrowWithTheCurrentAndDelicateNetsBearAFifth() {
    assertThat(DROPS.values())
        .allSatisfy(
            drop -> {
              boolean delicate =
                  Set.of("radio", "positioning").contains(map.net(drop.net()).function());
              assertThat(drop.amps()).hasSize(3);
              assertThat(drop.amps().get(2).value()).isEqualTo(delicate ? 0.2e-3 : 1e-3);
              assertThat(drop.volts())
                  .isSortedAccordingTo(Comparator.naturalOrder())
                  .allMatch(volts -> volts.value() > 0.05 && volts.value() < 0.95);
              assertThat(drop.boards()).isEqualTo(12);
            });
  }

  @Test
  void boardsDifferByMillivolts() {
    assertThat(DROPS.values().stream().map(Reference.Drop::sd))
        .allMatch(sd -> sd.value() > 0.001 && sd.value() < 0.02);
  }

  /** Twelve boards and twelve others are two samples of one kind. */
  @Test
  void otherBoardsReadTheSameWithinTheirSpread() throws FixtureException {
    Learn.Bench bench = Learn.virtual(map);
    PadMap again =
        Learn.learned(
            map, 12, (stack, setUp) -> bench.clamp(Specimens.good(map, -stack.seed()), setUp));

    // The rooms of twelve boards were not those of the others: their common part is taken off. Six
    // of the stated sd, since that is itself known from twelve boards only.
    Map<List<Amps>, List<Reference.Drop>> alike =
        again.references().stream()
            .filter(Reference.Drop.class::isInstance)
            .map(Reference.Drop.class::cast)
            .collect(Collectors.groupingBy(Reference.Drop::amps));
    assertThat(alike).isNotEmpty();
    for (List<Reference.Drop> others : alike.values()) {
      for (int i = 0; i < 3; i++) {
        int current = i;
        double[] distances =
            others.stream().mapToDouble(o -> distance(o, current)).sorted().toArray();
        double common = distances[distances.length / 2];
        for (Reference.Drop other : others) {
          Reference.Drop drop = DROPS.getOrDefault(other.net(), other);
          assertThat(other).isNotEqualTo(drop);
          assertThat(Math.abs(distance(other, i) - common))
              .isLessThan(6 * Math.hypot(drop.sd().value(), other.sd().value()) / Math.sqrt(12));
        }
      }
    }
  }

  private static double distance(Reference.Drop other, int current) {
    Reference.Drop drop = DROPS.getOrDefault(other.net(), other);
    return other.volts().get(current).value() - drop.volts().get(current).value();
  }

  @Test
  void sameStacksTeachTheSame() throws FixtureException {
    PadMap bare = Ring.of(120, 3, 3);

    assertThat(Learn.learned(bare, 12, Learn.virtual(bare))).isEqualTo(map);
  }
}
