package org.jointwalk.conform;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The kit and a sound fixture. */
class ConformanceTest {

  @ParameterizedTest
  @ValueSource(
      strings = {
        "saltmarsh-photo-relay.fixture.json",
        "saltmarsh-four-bus.fixture.json",
        "saltmarsh-relay-matrix.fixture.json"
      })
  void soundDeviceFailsNoClause(String map) throws IOException {
    DeviceWire wire = DeviceWire.to(new Damage(), map);
    List<Outcome> outcomes =
        new Conformance(wire, wire.second(new Damage()), Optional.empty(), new SplittableRandom(5))
            .look();

    assertThat(outcomes).filteredOn(outcome -> outcome.result() == Outcome.Result.FAILED).isEmpty();
    assertThat(outcomes.stream().filter(o -> o.result() == Outcome.Result.NOT_TESTABLE).count())
        .as("not testable of " + outcomes.size())
        .isLessThanOrEqualTo(outcomes.size() / 10);
  }
}
