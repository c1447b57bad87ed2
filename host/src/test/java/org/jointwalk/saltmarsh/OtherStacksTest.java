package org.jointwalk.saltmarsh;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.fixture.Ceilings;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Action;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.junit.jupiter.api.Test;

/** What the charged, the shorted and the wet stack read on their lower boards. */
class OtherStacksTest {

  private static final String ON_LOWER = "interposer-on-lower";

  private final PadMap map = SaltmarshS2.map();

  @Test
  void chargedRailReadsAboutItsVoltageUnloadedAndLoaded() throws FixtureException {
    String rail = padOf("RAIL_QUILL_A");

    assertThat(point("saltmarsh-charged", Kind.RESIDUAL, rail, ground()).volts())
        .isBetween(1.0, 1.15);
    assertThat(point("saltmarsh-charged", Kind.RESIDUAL_LOADED, rail, ground()).volts())
        .isGreaterThan(0.9);
    assertThat(point("saltmarsh-good", Kind.RESIDUAL, rail, ground()).volts())
        .isBetween(-0.001, 0.001);
  }

  @Test
  void shortedRailReadsLessThanAnOhmWhereAGoodOneReadsThousands() throws FixtureException {
    String rail = padOf("RAIL_DAWN");

    assertThat(ohms("saltmarsh-shorted", rail, ground())).isLessThan(3);
    assertThat(ohms("saltmarsh-good", rail, ground())).isGreaterThan(3000);
  }

  @Test
  void residueReadsAsTensOfKilohmWhereGoodNeighboursReadMore() throws FixtureException {
    assertThat(ohms("saltmarsh-wet", "N008", "N009")).isBetween(9_000.0, 13_000.0);
    assertThat(ohms("saltmarsh-good", "N008", "N009")).isGreaterThan(15_000);
  }

  private double ohms(String stack, String a, String b) throws FixtureException {
    Reading.Point point = point(stack, Kind.ISOLATION, a, b);
    return Math.abs(point.volts() / point.amps());
  }

  private Reading.Point point(String stack, Kind kind, String a, String b) throws FixtureException {
    FixtureMap relays = FixtureMaps.relayMatrix(map);
    Specimen specimen = Stacks.all().getOrDefault(stack, Stacks.dropped());
    VirtualFixture fixture =
        new VirtualFixture(map, specimen, relays, VirtualFixture.Conditions.CALM);
    SetUp setUp = SetUp.named(ON_LOWER).orElseThrow();
    fixture.clamp(setUp, List.of(new Action.Split(Side.UPPER)));
    Contact high = new Contact.Pad(Plate.OVER, a);
    Contact low = new Contact.Pad(Plate.OVER, b);
    Ceilings ceilings = new Ceilings(new Assembly(map, map.interposers().get(0), setUp));
    Step step =
        new Step(
            kind,
            List.of(high),
            List.of(low),
            List.of(),
            ceilings.volts(kind, List.of(high, low)),
            1);
    List<Reading> readings = new ArrayList<>();
    fixture.run(Scan.of(ON_LOWER, List.of(step)), batch -> readings.addAll(batch.readings()));
    return ((Reading.Measured) readings.get(0)).points().get(0);
  }

  private String ground() {
    return map.interposers().get(0).ties().get(0).positions().get(0);
  }

  private String padOf(String lowerNet) {
    return map.padsByNet(Side.LOWER)
        .getOrDefault(new NetId(Side.LOWER, lowerNet), List.of())
        .get(0);
  }
}
