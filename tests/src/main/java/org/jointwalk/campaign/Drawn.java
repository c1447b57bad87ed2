package org.jointwalk.campaign;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
import org.jointwalk.files.Names;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.saltmarsh.Specimens;
import org.jointwalk.simulator.ContactLaw;
import org.jointwalk.simulator.Pace;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Specimen;

/**
 * A broken stack and the fixture that it is clamped in, as drawn for a campaign.
 *
 * @param number of the stack in its campaign, from 0
 * @param stand model, fixture and set-up
 * @param fixture the stand's fixture, as one of many that were built to its map
 * @param specimen the stack; its faults come with the last action before it is clamped
 * @param conditions chance at the bench
 */
record Drawn(
    int number,
    Stand stand,
    FixtureMap fixture,
    Specimen specimen,
    VirtualFixture.Conditions conditions) {

  /** Probability that a sound probe does not land. */
  private static final double MISS = 0.001;

  /** Probability that pressure closes a crack (an assumption, as the simulator's others). */
  private static final double CLOSING = 0.2;

  /** One seating in so many is tilted. */
  private static final int SEATINGS_PER_TILT = 50;

  /** More seatings than any pass asks for. */
  private static final int SEATINGS = 8;

  private static final int MOST_BAD_PROBES = 4;

  /** Draws a stack for a stand; everything follows from the seed. */
  static Drawn of(int number, Stand stand, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    int faults = random.nextInt(Specimens.MOST_FAULTS + 1);
    Defects defects = Specimens.defects(stand.map(), stand.setUp(), faults, random);
    Defects bad = Specimens.badProbes(stand.map(), random.nextInt(MOST_BAD_PROBES + 1), random);
    for (var probe : bad.conditions().entrySet()) {
      defects = defects.with(probe.getKey(), probe.getValue());
    }
    List<Specimen.Trouble> troubles = new ArrayList<>();
    for (int seating = 1; seating <= SEATINGS; seating++) {
      if (random.nextInt(SEATINGS_PER_TILT) == 0) {
        troubles.add(new Specimen.Trouble.Tilted(seating));
      }
    }
    ContactLaw law = number % 2 == 0 ? ContactLaw.HEAVY_TAIL : ContactLaw.LOGNORMAL;
    Specimen specimen =
        new Specimen(
            stand.map().interposers().get(0).variant(),
            seed,
            Defects.NONE,
            List.of(new Specimen.Outcome(stand.actions().size(), defects, List.of())),
            troubles);
    return new Drawn(
        number,
        stand,
        built(stand.fixture(), number),
        specimen,
        new VirtualFixture.Conditions(law, MISS, CLOSING, Pace.FREE, 0));
  }

  /** Another fixture of the same build: its switches and scales are drawn anew. */
  private static FixtureMap built(FixtureMap map, int number) {
    Capabilities c = map.capabilities();
    Capabilities other =
        new Capabilities(
            c.identity() + "-" + number,
            c.build(),
            c.calibration(),
            c.switching(),
            c.kelvin(),
            c.banks(),
            c.readers(),
            c.ranges(),
            c.path(),
            c.probes(),
            c.ratings());
    return new FixtureMap(map.name(), map.device(), other, map.channels(), map.defective());
  }

  /** The faults that were put in, dirty probes included. */
  Defects defects() {
    return specimen.outcomes().stream()
        .map(Specimen.Outcome::adds)
        .findFirst()
        .orElse(Defects.NONE);
  }

  /** The fixture with the stack clamped in it. */
  VirtualFixture clamped() {
    return clampedIn(fixture);
  }

  /**
   * The same without the probes that never land: what no reading can reach, no reading can show.
   */
  VirtualFixture clampedWithoutDeadProbes() {
    Set<Integer> dead =
        fixture.channels().stream()
            .filter(c -> isDead(c))
            .map(Channel::number)
            .collect(Collectors.toSet());
    return clampedIn(
        new FixtureMap(
            fixture.name(), fixture.device(), fixture.capabilities(), fixture.channels(), dead));
  }

  private boolean isDead(Channel channel) {
    return defects()
        .of(new Component.Probe(channel.contact()))
        .filter(Condition.Open.class::isInstance)
        .isPresent();
  }

  private VirtualFixture clampedIn(FixtureMap wired) {
    VirtualFixture clamped = new VirtualFixture(stand.map(), specimen, wired, conditions);
    clamped.clamp(stand.setUp(), stand.actions());
    return clamped;
  }

  /** The stack in words, with all that is wrong with it. */
  String words() {
    return "stack "
        + number
        + " ("
        + stand.words()
        + ", "
        + conditions.law()
        + ", seed "
        + specimen.seed()
        + ", "
        + specimen.troubles()
        + "): "
        + defects().conditions().entrySet().stream()
            .map(e -> Names.of(e.getKey()) + " " + e.getValue())
            .collect(Collectors.joining("; "));
  }
}
