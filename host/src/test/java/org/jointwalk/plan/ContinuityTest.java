package org.jointwalk.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.jointwalk.trial.Readings.ohms;
import static org.jointwalk.trial.Readings.over;
import static org.jointwalk.trial.Readings.point;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Measurement;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.Question;
import org.jointwalk.job.Question.Need;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class ContinuityTest {

  private static final double NONE = Double.POSITIVE_INFINITY;

  /** Noise and nothing else, so that every reading is as good as any other. */
  private static final Capabilities EQUAL =
      Instruments.with(
          Instruments.ideal(Switching.MULTIPLEXER),
          Kind.LOW_LEVEL,
          Instruments.range(0.1, 0.02, 0, 0, 1e-6, 0));

  private static List<Step> scan(
      SmallMap map, Need need, List<Contact> contacts, Measurement... before) {
    var assembly = map.in("interposer-on-lower");
    Solve solve = new Solve(assembly, EQUAL, List.of());
    Estimates estimates = solve.estimates(List.of(before));
    return new Plan(assembly, EQUAL, assembly.contacts(), solve)
        .scan(contacts.stream().map(c -> new Question(need, List.of(c))).toList(), estimates, 1)
        .steps();
  }

  private static SmallMap rail(int pads) {
    SmallMap map =
        new SmallMap().net("GND", Role.GROUND).net("VCC", Role.RAIL).net("S", Role.SIGNAL);
    for (int i = 0; i < pads; i++) {
      double angle = 2 * Math.PI * i / Math.max(pads, 3);
      map.at("P" + i, 20 * Math.cos(angle), 20 * Math.sin(angle), "VCC", "VCC");
    }
    return map.at("G1", 30, 0, "GND", "GND")
        .at("G2", -30, 0, "GND", "GND")
        .at("S", 25, 1, "S", "S");
  }

  private static List<Contact> pads(int n) {
    List<Contact> pads = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      pads.add(over("P" + i));
    }
    return pads;
  }

  private static Measurement measured(Step step, double ohms) {
    double amps = step.currents().get(0).value();
    return new Measurement(
        1, step, new Reading.Measured(0, List.of(new Reading.Point(ohms * amps, amps))));
  }

  static IntStream sizes() {
    return IntStream.rangeClosed(3, 40);
  }

  /** The bars of the design: k readings, one more where a block is larger, 0.75 of a variance. */
  @ParameterizedTest
  @MethodSource("sizes")
  void blocksResolveEveryPadWithThreeQuartersOfTheVarianceOfOneReading(int pads) {
    List<Step> steps = scan(rail(pads), Need.PATH, pads(pads));
    assertThat(steps).hasSize(pads % 3 == 0 ? pads : pads + 1);
    double u =
        new Accuracy(EQUAL)
            .ohms(steps.get(0), (Reading.Measured) measured(steps.get(0), 1).reading())
            .u();
    Solve solve = new Solve(rail(pads).in("interposer-on-lower"), EQUAL, List.of());
    List<PathEstimate> paths =
        solve.estimates(steps.stream().map(s -> measured(s, 1)).toList()).paths();
    assertThat(paths).hasSize(pads);
    for (PathEstimate path : paths) {
      assertThat(path.sharedWith()).isEmpty();
      double ratio = Math.pow(path.ohms().orElseThrow().u() / u, 2);
      assertThat(ratio).as("%s", path.contact()).isLessThanOrEqualTo(0.75 + 1e-9);
    }
    assertThat(new HashSet<>(steps)).hasSameSizeAs(steps);
  }

  @Test
  void twoPadsGiveOneReadingOfTheirSum() {
    List<Step> steps = scan(rail(2), Need.PATH, pads(2));
    assertThat(steps).hasSize(1);
    assertThat(steps.get(0).kind()).isEqualTo(Kind.LOW_LEVEL);
  }

  /** The ring lies far from the origin of the map, and its pads are asked for in disorder. */
  @Test
  void trianglesAreMadeOfPadsThatLieSideBySide() {
    SmallMap map =
        new SmallMap().net("GND", Role.GROUND).net("VCC", Role.RAIL).net("S", Role.SIGNAL);
    List<Contact> asked = new ArrayList<>();
    for (int i = 0; i < 30; i++) {
      double angle = 2 * Math.PI * i / 30;
      map.at("P" + i, 500 + 20 * Math.cos(angle), -300 + 20 * Math.sin(angle), "VCC", "VCC");
      asked.add(over("P" + (i * 7 % 30)));
    }
    for (Step step : scan(map, Need.PATH, asked)) {
      int a = Integer.parseInt(((Contact.Pad) step.a()).position().substring(1));
      int b = Integer.parseInt(((Contact.Pad) step.b()).position().substring(1));
      int apart = Math.min(Math.floorMod(a - b, 30), Math.floorMod(b - a, 30));
      assertThat(apart).isLessThanOrEqualTo(2);
    }
  }

  @Test
  void accessPointsJoinTheBlocksOfTheirNet() {
    SmallMap map = rail(2).point("T", Side.LOWER, "VCC");
    List<Contact> contacts = new ArrayList<>(pads(2));
    contacts.add(point("T"));
    List<Step> steps = scan(map, Need.PATH, contacts);
    assertThat(steps).hasSize(3);
    assertThat(steps)
        .filteredOn(s -> s.a().equals(point("T")) || s.b().equals(point("T")))
        .hasSize(2);
  }

  @Test
  void aLoneSuspectGetsProvenHelpersOfItsNetFirst() {
    List<Step> steps =
        scan(
            rail(6),
            Need.PATH,
            List.of(over("P0")),
            ohms(1, over("P3"), over("P4"), 0.1),
            ohms(1, over("P1"), over("P2"), NONE));
    Set<Contact> seen = new LinkedHashSet<>();
    steps.forEach(s -> seen.addAll(List.of(s.a(), s.b())));
    assertThat(seen).containsExactlyInAnyOrder(over("P0"), over("P3"), over("P4"));
    assertThat(steps).hasSize(3);
  }

  @Test
  void sharedMetalOfTheInterposerHelpsALoneGround() {
    SmallMap map =
        new SmallMap()
            .net("GND", Role.GROUND)
            .pad("G", "GND")
            .pad("T1", "GND")
            .pad("T2", "GND")
            .tie(Tie.Where.EDGE, "T1", "T2");
    Set<Contact> seen = new LinkedHashSet<>();
    scan(map, Need.PATH, List.of(over("G"))).forEach(s -> seen.addAll(List.of(s.a(), s.b())));
    assertThat(seen).containsExactlyInAnyOrder(over("G"), over("T1"), over("T2"));
  }

  @Test
  void aPadAloneOnItsNetIsReadFromTheNearestProvenGround() {
    Measurement grounds = ohms(1, over("G1"), over("G2"), 0.1);
    List<Step> steps = scan(rail(3), Need.PATH, List.of(over("S")), grounds);
    assertThat(steps).hasSize(1);
    assertThat(steps.get(0).kind()).isEqualTo(Kind.JUNCTION);
    assertThat(steps.get(0).high()).containsExactly(over("G1"));
    assertThat(steps.get(0).low()).containsExactly(over("S"));
    assertThat(scan(rail(3), Need.PATH, List.of(over("S")))).isEmpty();
    assertThat(scan(rail(3), Need.PATH, List.of(over("S")), ohms(1, over("G1"), over("G2"), NONE)))
        .isEmpty();
  }

  @Test
  void aJunctionThatTheNetItselfFeedsIsReadTheOtherWay() {
    Measurement grounds = ohms(1, over("G1"), over("G2"), 0.1);
    SmallMap feeds = rail(3).load(new Load.Junction(Side.LOWER, "S", "VCC", Load.Material.SILICON));
    assertThat(scan(feeds, Need.PATH, List.of(over("S")), grounds).get(0).high())
        .containsExactly(over("S"));
    SmallMap both =
        rail(3)
            .load(new Load.Junction(Side.LOWER, "S", "VCC", Load.Material.SILICON))
            .load(new Load.Junction(Side.LOWER, "GND", "S", Load.Material.SILICON));
    assertThat(scan(both, Need.PATH, List.of(over("S")), grounds).get(0).high())
        .containsExactly(over("G1"));
    SmallMap elsewhere =
        rail(3).load(new Load.Junction(Side.UPPER, "S", "VCC", Load.Material.SILICON));
    assertThat(scan(elsewhere, Need.PATH, List.of(over("S")), grounds).get(0).high())
        .containsExactly(over("G1"));
  }

  @Test
  void aLoneRailIsReadByItsLoadAndByItsJunctionWhenNoLoadIsKnown() {
    Measurement grounds = ohms(1, over("G1"), over("G2"), 0.1);
    SmallMap loaded = rail(1).resistor("VCC", "GND", 90_000);
    assertThat(scan(loaded, Need.PATH, pads(1), grounds).get(0).kind()).isEqualTo(Kind.ISOLATION);
    SmallMap light = rail(1).resistor("VCC", "GND", 110_000);
    assertThat(scan(light, Need.PATH, pads(1), grounds).get(0).kind()).isEqualTo(Kind.JUNCTION);
    assertThat(scan(rail(1), Need.PATH, pads(1), grounds).get(0).kind()).isEqualTo(Kind.JUNCTION);
  }

  @Test
  void anOddPadIsReadAgainstTheTwoNearestOthersAndTheyAgainstEachOther() {
    List<Step> steps =
        scan(
            rail(12),
            Need.PARTNER,
            List.of(over("P0")),
            ohms(1, over("P0"), over("P1"), 0.1),
            ohms(1, over("P0"), over("P11"), 0.1),
            ohms(1, over("P2"), over("P5"), 0.1),
            ohms(1, over("P10"), over("P6"), 0.1),
            ohms(1, over("P9"), over("P3"), NONE));
    assertThat(steps)
        .extracting(s -> Set.of(s.a(), s.b()))
        .containsExactlyInAnyOrder(
            Set.of(over("P0"), over("P2")),
            Set.of(over("P0"), over("P10")),
            Set.of(over("P2"), over("P10")));
  }

  @Test
  void partnersThatWereReadTogetherAreNotReadTogetherAgain() {
    List<Step> steps =
        scan(
            rail(4),
            Need.PARTNER,
            List.of(over("P0")),
            ohms(1, over("P0"), over("P1"), NONE),
            ohms(1, over("P2"), over("P3"), 0.1));
    assertThat(steps).hasSize(2).allMatch(s -> s.high().contains(over("P0")));
  }

  @Test
  void aPadWhoseNetShowsNobodyElseGoesToGround() {
    List<Step> steps =
        scan(
            rail(2),
            Need.PARTNER,
            pads(2),
            ohms(1, over("G1"), over("G2"), 0.1),
            ohms(1, over("P0"), over("P1"), NONE));
    assertThat(steps).hasSize(2).allMatch(s -> s.kind() == Kind.JUNCTION);
    assertThat(steps).extracting(s -> s.low().get(0)).containsExactly(over("P0"), over("P1"));
  }

  @Test
  void anotherSeatingProvesNothingInThisOne() {
    assertThat(scan(rail(3), Need.PATH, List.of(over("S")), ohms(2, over("G1"), over("G2"), 0.1)))
        .isEmpty();
  }
}
