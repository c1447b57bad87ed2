package org.jointwalk.saltmarsh;

import static org.assertj.core.api.Assertions.assertThat;

import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Path;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.fixture.Range;
import org.jointwalk.stack.PadMap;
import org.junit.jupiter.api.Test;

class FixtureMapsTest {

  private final PadMap map = SaltmarshS2.unlearned();

  @Test
  void everyContactHasAWireAndKelvinFixturesTwo() {
    assertThat(FixtureMaps.photoRelay(map).channels()).hasSize(880);
    assertThat(FixtureMaps.relayMatrix(map).channels()).hasSize(1760);
    assertThat(FixtureMaps.fourBus(map).channels()).hasSize(1760);
    assertThat(FixtureMaps.fourBus(map).contacts()).hasSize(880);
  }

  @Test
  void channelsAreNumberedFromZeroWithoutAGap() {
    FixtureMap fixture = FixtureMaps.fourBus(map);

    for (int i = 0; i < fixture.channels().size(); i++) {
      assertThat(fixture.channels().get(i).number()).isEqualTo(i);
    }
  }

  /** Figures of the builds in this project's design, calculated there, no outside source. */
  @Test
  void uncertaintyOfOneReadingIsThatOfItsBuild() {
    assertThat(ohms(FixtureMaps.analogSwitch(map), Kind.NORMAL_LEVEL)).isBetween(2.4, 2.6);
    assertThat(ohms(FixtureMaps.photoRelay(map), Kind.LOW_LEVEL)).isBetween(0.030, 0.034);
    assertThat(ohms(FixtureMaps.relayMatrix(map), Kind.LOW_LEVEL)).isBetween(0.0139, 0.0145);
    assertThat(ohms(FixtureMaps.fourBus(map), Kind.LOW_LEVEL)).isBetween(10e-6, 100e-6);
  }

  @Test
  void isolationThresholdStandsFarAboveTheNoiseOfTheCurrent() {
    assertThat(isolation(FixtureMaps.photoRelay(map), 1e4)).isGreaterThan(20);
    assertThat(isolation(FixtureMaps.analogSwitch(map), 1e4)).isGreaterThan(20);
    assertThat(isolation(FixtureMaps.relayMatrix(map), 1e6)).isGreaterThan(20);
    assertThat(isolation(FixtureMaps.fourBus(map), 1e6)).isGreaterThan(20);
  }

  @Test
  void lowLevelStaysDryAndJunctionsBelowAVolt() {
    for (FixtureMap fixture :
        new FixtureMap[] {
          FixtureMaps.photoRelay(map), FixtureMaps.relayMatrix(map), FixtureMaps.fourBus(map)
        }) {
      assertThat(range(fixture, Kind.LOW_LEVEL).compliance().value()).isLessThanOrEqualTo(0.02);
      assertThat(range(fixture, Kind.JUNCTION).compliance().value()).isLessThanOrEqualTo(1.0);
    }
    assertThat(FixtureMaps.analogSwitch(map).capabilities().range(Kind.LOW_LEVEL)).isEmpty();
  }

  /** Standard uncertainty of a small resistance between two contacts, zeroed, both landed. */
  private static double ohms(FixtureMap fixture, Kind kind) {
    Capabilities able = fixture.capabilities();
    Range range = range(fixture, kind);
    Path path = able.path();
    ProbeQuality probes = able.probes();
    double switches = able.kelvin() == Kelvin.NONE ? Math.sqrt(2) * path.sd().value() : 0;
    double contacts = able.kelvin() == Kelvin.TIP ? 0 : Math.sqrt(2) * probes.sd().value();
    double volts = Math.hypot(range.offset().value(), range.noise().value());
    return Math.hypot(Math.hypot(switches, contacts), volts / range.current().value());
  }

  /** How often the noise goes into the current of a path at the threshold, at 50 millivolt. */
  private static double isolation(FixtureMap fixture, double threshold) {
    return 0.05 / threshold / range(fixture, Kind.ISOLATION).currentNoise().value();
  }

  private static Range range(FixtureMap fixture, Kind kind) {
    return fixture.capabilities().range(kind).orElseThrow();
  }
}
