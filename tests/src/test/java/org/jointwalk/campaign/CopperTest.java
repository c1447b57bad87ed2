package org.jointwalk.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import org.jointwalk.quantity.Ohms;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.Test;

class CopperTest {

  private static final Condition OPEN = new Condition.Open();
  private static final Condition METAL = new Condition.Bridged(new Ohms(0.01));

  private final PadMap map = Ring.of(120, 2, 5);
  private final Assembly assembly =
      new Assembly(map, map.interposers().get(0), SetUp.named("interposer-on-lower").orElseThrow());
  private final Position first =
      map.positions().values().stream().filter(this::isUntied).findFirst().orElseThrow();
  private final Position other =
      map.positions().values().stream()
          .filter(p -> isUntied(p) && !p.lowerNet().equals(first.lowerNet()))
          .findFirst()
          .orElseThrow();
  private final Component bridge = Component.Bridge.between(Side.LOWER, first.id(), other.id());

  private boolean isUntied(Position position) {
    return assembly.inBranches(position.id()).containsAll(assembly.present(position.id()));
  }

  @Test
  void netsOfAGoodStackAreApart() {
    Copper copper = new Copper(assembly, Defects.NONE);
    assertThat(copper.joinedTouched(first.id(), other.id())).isFalse();
  }

  @Test
  void bridgeJoinsWhatItTouchesAndNothingElse() {
    Defects defects = Defects.NONE.with(bridge, METAL);
    Copper copper = new Copper(assembly, defects).withJoins(defects);
    assertThat(copper.joinedTouched(first.id(), other.id())).isTrue();
    assertThat(new Copper(assembly, defects).withJoins(defects, bridge).joins(bridge, METAL))
        .isFalse();
  }

  @Test
  void openViaTakesABridgeBelowItFromTheTip() {
    Defects defects = Defects.NONE.with(bridge, METAL).with(new Component.Via(other.id()), OPEN);
    Copper copper = new Copper(assembly, defects).withJoins(defects);
    assertThat(copper.joinedTouched(first.id(), other.id())).isFalse();
  }
}
