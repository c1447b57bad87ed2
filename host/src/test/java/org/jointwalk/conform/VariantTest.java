package org.jointwalk.conform;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Each broken fixture is caught by the clause that it breaks, and by no other. */
class VariantTest {

  private static final String MAP = "saltmarsh-photo-relay.fixture.json";

  static List<Variant> variants() {
    return Variant.all();
  }

  static List<Outcome> look(DeviceWire wire, Optional<Wire> second) throws IOException {
    return new Conformance(
            wire, second, Optional.of(said -> hand(wire, said)), new SplittableRandom(5))
        .look();
  }

  private static void hand(DeviceWire wire, String said) {
    if (said.startsWith("Open")) {
      wire.device.openLid();
    } else {
      wire.device.closeLid();
    }
  }

  static List<String> failed(List<Outcome> outcomes) {
    return outcomes.stream()
        .filter(outcome -> outcome.result() == Outcome.Result.FAILED)
        .map(Outcome::clause)
        .toList();
  }

  @ParameterizedTest
  @MethodSource("variants")
  void brokenFixtureFailsItsClauseAndNoOther(Variant variant) throws IOException {
    List<Outcome> outcomes = look(DeviceWire.to(variant.broken(), MAP), Optional.empty());

    assertThat(failed(outcomes)).as(outcomes.toString()).containsExactly(variant.clause());
  }

  @Test
  void fixtureThatTakesFramesOfAnotherLineForThoseOfASessionFailsItsClauseAndNoOther()
      throws IOException {
    Broken first = new Broken();
    DeviceWire wire = DeviceWire.to(first, MAP);
    Broken second = new Broken();
    second.asked =
        (broken, frame) -> {
          broken.down(frame);
          first.keepAlive();
        };
    List<Outcome> outcomes = look(wire, wire.second(second));

    assertThat(failed(outcomes)).as(outcomes.toString()).containsExactly(Variant.OTHER_LINE);
  }

  @Test
  void mutePortFailsWithoutManyWords() throws IOException {
    Broken mute = new Broken();
    mute.said = (broken, frame) -> {};
    List<Outcome> outcomes = look(DeviceWire.to(mute, MAP), Optional.empty());

    assertThat(failed(outcomes)).containsExactly("M88");
  }
}
