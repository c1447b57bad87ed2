package org.jointwalk.saltmarsh;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.fixture.Ceilings;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Action;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;
import org.junit.jupiter.api.Test;

/** The dropped stack in the demo's fixture, action by action. */
class StoryTest {

  private final PadMap map = SaltmarshS2.map();
  private final List<Action> actions = Stacks.actionsOnDropped();
  private final VirtualFixture fixture =
      new VirtualFixture(
          map, Stacks.dropped(), FixtureMaps.photoRelay(map), VirtualFixture.Conditions.CALM);

  @Test
  void upperBoardIsSound() throws FixtureException {
    fixture.clamp(setUp("upper-board"), actions.subList(0, 1));

    assertThat(withoutPath("upper-board", Side.UPPER, Plate.UNDER)).isEmpty();
  }

  @Test
  void ninePositionsHaveNoPathAtFirstAndSevenAfterAnotherClamping() throws FixtureException {
    fixture.clamp(setUp("upper-board"), actions.subList(0, 1));
    fixture.clamp(setUp("interposer-on-lower"), actions.subList(0, 1));
    List<String> first = withoutPath("interposer-on-lower", Side.LOWER, Plate.OVER);
    fixture.reseat();
    List<String> second = withoutPath("interposer-on-lower", Side.LOWER, Plate.OVER);

    List<String> seven = new ArrayList<>(Stacks.CRACKED);
    seven.add(Stacks.TORN);
    List<String> nine = new ArrayList<>(seven);
    nine.addAll(Stacks.MISSED);
    assertThat(first).containsExactlyInAnyOrderElementsOf(nine);
    assertThat(second).containsExactlyInAnyOrderElementsOf(seven);
  }

  @Test
  void lowerBoardAloneShowsTheTornPadOnly() throws FixtureException {
    fixture.clamp(setUp("lower-board"), actions.subList(0, 2));

    assertThat(withoutPath("lower-board", Side.LOWER, Plate.OVER)).containsExactly(Stacks.TORN);
  }

  @Test
  void firstReballLeavesOneOpenAndTwoJoinedTheSecondNothing() throws FixtureException {
    fixture.clamp(setUp("interposer-on-lower"), actions.subList(0, 4));
    assertThat(withoutPath("interposer-on-lower", Side.LOWER, Plate.OVER))
        .containsExactly(Stacks.NOT_TAKEN);
    assertThat(ohmsBetween(Stacks.TOO_MUCH_SOLDER.a(), Stacks.TOO_MUCH_SOLDER.b())).isLessThan(10);

    fixture.clamp(setUp("interposer-on-lower"), actions);
    // The second clamping of this fixture is the one in which two probes miss.
    fixture.reseat();
    assertThat(withoutPath("interposer-on-lower", Side.LOWER, Plate.OVER)).isEmpty();
    assertThat(ohmsBetween(Stacks.TOO_MUCH_SOLDER.a(), Stacks.TOO_MUCH_SOLDER.b()))
        .isGreaterThan(10_000);
  }

  /** Signals and rails into which the smallest test current does not flow from ground. */
  private List<String> withoutPath(String name, Side side, Plate plate) throws FixtureException {
    Ceilings ceilings = ceilings(name);
    Contact ground = new Contact.Pad(plate, tiedGround());
    List<String> asked = new ArrayList<>();
    List<Step> steps = new ArrayList<>();
    for (String id : map.positions().keySet()) {
      Net net = map.netAt(id, side);
      if (net.dcPath() && net.role() != Role.GROUND) {
        List<Contact> two = List.of(ground, new Contact.Pad(plate, id));
        asked.add(id);
        steps.add(
            new Step(
                Kind.JUNCTION,
                two.subList(0, 1),
                two.subList(1, 2),
                ceilings.junctionCurrents(two).subList(0, 1),
                ceilings.volts(Kind.JUNCTION, two),
                1));
      }
    }
    List<String> without = new ArrayList<>();
    fixture.run(
        Scan.of(name, steps),
        batch ->
            batch.readings().stream()
                .filter(reading -> !(reading instanceof Reading.Measured))
                .forEach(reading -> without.add(asked.get(reading.index()))));
    return without;
  }

  private double ohmsBetween(String a, String b) throws FixtureException {
    List<Contact> two = List.of(new Contact.Pad(Plate.OVER, a), new Contact.Pad(Plate.OVER, b));
    Step step =
        new Step(
            Kind.ISOLATION,
            two.subList(0, 1),
            two.subList(1, 2),
            List.of(),
            ceilings("interposer-on-lower").volts(Kind.ISOLATION, two),
            1);
    List<Reading> readings = new ArrayList<>();
    fixture.run(
        Scan.of("interposer-on-lower", List.of(step)), batch -> readings.addAll(batch.readings()));
    Reading.Point point = ((Reading.Measured) readings.get(0)).points().get(0);
    return Math.abs(point.volts() / point.amps());
  }

  private String tiedGround() {
    Tie tie = map.interposers().get(0).ties().get(0);
    return tie.positions().get(0);
  }

  private Ceilings ceilings(String name) {
    return new Ceilings(new Assembly(map, map.interposers().get(0), setUp(name)));
  }

  private static SetUp setUp(String name) {
    return SetUp.named(name).orElseThrow();
  }
}
