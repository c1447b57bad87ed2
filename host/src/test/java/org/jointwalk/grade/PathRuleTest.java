package org.jointwalk.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.jointwalk.grade.Made.calm;
import static org.jointwalk.grade.Made.conducts;
import static org.jointwalk.grade.Made.contradictory;
import static org.jointwalk.grade.Made.drop;
import static org.jointwalk.grade.Made.none;
import static org.jointwalk.grade.Made.sum;
import static org.jointwalk.grade.Made.unproven;
import static org.jointwalk.grade.Made.value;
import static org.jointwalk.trial.Readings.over;
import static org.jointwalk.trial.Readings.under;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Grade;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Limits;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

/** Limits are 2 ohm on signals and 0.5 ohm on rails. */
class PathRuleTest {

  /** Normal quantile of 5 %, the risk of accusing (tables of the normal law). */
  private static final double GUARD = 1.6448536269514722;

  /** Normal quantile of 4 %, what a first clamping spends of the risk of clearing. */
  private static final double CLEAR = 1.7506860712521692;

  /** Normal quantile of one in a hundred thousand (table value). */
  private static final double DROP_GUARD = 4.265;

  private static SmallMap map() {
    return new SmallMap()
        .net("GND", Role.GROUND)
        .net("VCC", Role.RAIL)
        .net("S", Role.SIGNAL)
        .net("T", Role.SIGNAL)
        .net("PAIR", Role.SIGNAL)
        .net("BLOCKED", Role.SIGNAL, "radio", 0, false)
        .net("SPARE", Role.UNUSED)
        .pad("E1", "GND")
        .pad("E2", "GND")
        .pad("G", "GND")
        .pad("V1", "VCC")
        .pad("V2", "VCC")
        .pad("V3", "VCC")
        .pad("S", "S")
        .pad("T", "T")
        .pad("P1", "PAIR")
        .pad("P2", "PAIR")
        .pad("B", "BLOCKED")
        .pad("X", "SPARE")
        .tie(Tie.Where.EDGE, "E1", "E2");
  }

  private static Finding grade(String position, PathEstimate... paths) {
    return grade(map().in("interposer-on-lower"), position, calm("V1", paths));
  }

  private static Finding grade(Assembly assembly, String position, Estimates estimates) {
    return grade(assembly, assembly.contacts(), position, estimates);
  }

  private static Finding grade(
      Assembly assembly, Set<Contact> wired, String position, Estimates estimates) {
    return new PathRule(
            assembly,
            Instruments.ideal(Switching.MULTIPLEXER),
            new Ring(assembly, Instruments.ideal(Switching.MULTIPLEXER), wired),
            new Knowledge(assembly, estimates))
        .grade(position);
  }

  private static List<Component> chain(String id) {
    return List.of(
        new Component.Via(id),
        new Component.Joint(Side.LOWER, id),
        new Component.Pad(Side.LOWER, id));
  }

  // What cannot be seen

  @Test
  void whatNoProbeReachesIsNotTested() {
    Assembly assembly = map().in("interposer-on-lower");
    Set<Contact> wired = new LinkedHashSet<>(assembly.contacts());
    wired.remove(over("S"));
    Finding finding = grade(assembly, wired, "S", calm("V1", value(1, "V1", 0.1, 0.01)));
    assertThat(finding.grade()).isEqualTo(Grade.NOT_TESTED);
    assertThat(finding.reason()).contains("no probe reaches it");
    assertThat(finding.seatings()).isZero();
  }

  @Test
  void aPathBehindSharedMetalIsMaskedWhateverItsProbeRead() {
    Finding finding = grade("E1", value(1, "E1", 0.001, 0.0001));
    assertThat(finding.grade()).isEqualTo(Grade.MASKED);
    assertThat(finding.ohms()).isEmpty();
  }

  @Test
  void aViaBeforeSharedMetalIsAccusedButNeverCalledGood() {
    Assembly tied = map().tie(Tie.Where.BOTTOM, "V2", "V3").in("interposer-on-lower");
    Finding open = grade(tied, "V2", calm("V1", none(1, "V2", "V1"), value(1, "V1", 0.1, 0.01)));
    assertThat(open.grade()).isEqualTo(Grade.OPEN);
    assertThat(open.among())
        .containsExactly(new Component.Via("V2"), new Component.Probe(over("V2")));
    Finding high = grade(tied, "V2", calm("V1", value(1, "V2", 4, 0.01)));
    assertThat(high.grade()).isEqualTo(Grade.HIGH);
    assertThat(high.among()).containsExactly(new Component.Via("V2"));
    Finding sound = grade(tied, "V2", calm("V1", value(1, "V2", 0.01, 0.01)));
    assertThat(sound.grade()).isEqualTo(Grade.MASKED);
  }

  @Test
  void padsWithoutAWayForDirectCurrentSayWhy() {
    assertThat(grade("B").reason()).contains("no direct current can flow on BLOCKED");
    assertThat(grade("X").reason()).contains("not used");
    assertThat(grade("B").grade()).isEqualTo(Grade.NOT_TESTED);
    assertThat(grade("X").grade()).isEqualTo(Grade.NOT_TESTED);
  }

  @Test
  void aPadThatWasNotReadSaysWhetherAnythingCouldBe() {
    Finding released = grade("S", value(1, "V1", 0.1, 0.01));
    assertThat(released.grade()).isEqualTo(Grade.NOT_TESTED);
    assertThat(released.reason()).isEqualTo("it was not read");
    Finding blind =
        grade(
            map().in("interposer-on-lower"),
            "S",
            new Estimates(List.of(unproven(1, "G", "E1")), List.of(), List.of(), List.of()));
    assertThat(blind.grade()).isEqualTo(Grade.NOT_TESTED);
    assertThat(blind.reason()).contains("no ground was proven").contains("nothing was sourced");
  }

  @Test
  void theViaOfABareInterposerIsGradedByTheProbeThatLiesBeforeIt() {
    SmallMap tied = map().tie(Tie.Where.TOP, "S", "T");
    Assembly bare = tied.in("interposer");
    PathEstimate top = conducts(1, "S");
    PathEstimate bottom =
        new PathEstimate(
            1,
            under("S"),
            PathEstimate.Evidence.NO_PATH,
            Optional.empty(),
            Optional.empty(),
            false,
            List.of(),
            true);
    Finding finding =
        grade(bare, "S", new Estimates(List.of(top, bottom), List.of(), List.of(), List.of()));
    assertThat(finding.grade()).isEqualTo(Grade.OPEN);
    assertThat(finding.among())
        .containsExactly(
            new Component.Via("S"),
            new Component.Probe(over("S")),
            new Component.Probe(under("S")));
  }

  // No path

  @Test
  void oneSeatingWithoutAPathIsJointOrContact() {
    Finding finding = grade("S", none(1, "S", "G"), value(1, "V1", 0.1, 0.01));
    assertThat(finding.grade()).isEqualTo(Grade.OPEN);
    assertThat(finding.confirmed()).isFalse();
    assertThat(finding.seatings()).isEqualTo(1);
    assertThat(finding.among()).startsWith(chain("S").toArray(Component[]::new));
    assertThat(finding.reason()).isEqualTo("no path here: joint or contact; one seating");
  }

  /** A probe can be bent for good: three seatings do not tell it from its path. */
  @Test
  void aMissingPathNamesItsProbeHoweverOftenItWasSeatedAgain() {
    Finding lone = grade("S", none(1, "S", "G"), none(2, "S", "G"), none(3, "S", "G"));
    assertThat(lone.confirmed()).isTrue();
    assertThat(lone.among()).hasSize(4).endsWith(new Component.Probe(over("S")));
  }

  @Test
  void aLoneOpenNeedsThreeSeatingsAndTwoBesideAnother() {
    Finding two = grade("S", none(1, "S", "G"), none(2, "S", "G"));
    assertThat(two.confirmed()).isFalse();
    assertThat(two.reason()).isEqualTo("no path here: joint or contact; 2 seatings");
    Finding three = grade("S", none(1, "S", "G"), none(2, "S", "G"), none(3, "S", "G"));
    assertThat(three.confirmed()).isTrue();
    assertThat(three.reason()).isEqualTo("no path in 3 seatings");
    // T lies 1 mm from S, V3 too; E1 lies 6 mm away.
    Finding beside =
        grade("S", none(1, "S", "G"), none(2, "S", "G"), none(1, "T", "G"), none(2, "T", "G"));
    assertThat(beside.confirmed()).isTrue();
    Finding once = grade("S", none(1, "S", "G"), none(2, "S", "G"), none(1, "T", "G"));
    assertThat(once.confirmed()).isFalse();
    Finding far =
        grade("S", none(1, "S", "G"), none(2, "S", "G"), none(1, "E2", "G"), none(2, "E2", "G"));
    assertThat(far.confirmed()).isFalse();
  }

  @Test
  void aNeighbourThatConductedOnceIsNoOpenNeighbour() {
    Finding finding =
        grade(
            "S",
            none(1, "S", "G"),
            none(2, "S", "G"),
            none(1, "T", "G"),
            none(2, "T", "G"),
            conducts(3, "T", "G"));
    assertThat(finding.confirmed()).isFalse();
  }

  @Test
  void ofTwoPadsThatNothingElseProvesEitherMayBeOpen() {
    Finding finding = grade("P1", unproven(1, "P1", "P2"), unproven(1, "P2", "P1"));
    assertThat(finding.grade()).isEqualTo(Grade.OPEN);
    assertThat(finding.among())
        .hasSize(8)
        .containsAll(chain("P1"))
        .containsAll(chain("P2"))
        .endsWith(new Component.Probe(over("P1")), new Component.Probe(over("P2")));
    assertThat(finding.reason())
        .contains("no path here: joint or contact")
        .contains("of this pad or of the other of its net");
  }

  @Test
  void groundIsNoOtherPadOfItsNet() {
    Finding finding = grade("P1", unproven(1, "P1", "P2", "G"), unproven(1, "P2", "P1", "G"));
    assertThat(finding.grade()).isEqualTo(Grade.OPEN);
    assertThat(finding.among()).hasSize(8).doesNotContainAnyElementsOf(chain("G"));
  }

  @Test
  void aNetOfWhichNoPadIsProvenIsUndecided() {
    Finding finding =
        grade(
            "V1",
            unproven(1, "V1", "V2", "V3"),
            unproven(1, "V2", "V1", "V3"),
            unproven(1, "V3", "V1", "V2"));
    assertThat(finding.grade()).isEqualTo(Grade.UNDECIDED);
    assertThat(finding.confirmed()).isFalse();
    assertThat(finding.reason()).contains("none of them is proven good");
    assertThat(grade("V1", unproven(1, "V1", "V2"), none(2, "V1", "V2")).grade())
        .isEqualTo(Grade.OPEN);
  }

  @Test
  void aPathMissingOnlyWhereThePlateSatBadlyWasNotContacted() {
    PathEstimate[] tilted = {
      none(1, "V1", "G"),
      none(1, "V2", "G"),
      none(1, "V3", "G"),
      none(1, "S", "G"),
      none(1, "T", "G"),
      none(1, "P1", "G"),
      none(1, "P2", "G")
    };
    Finding finding = grade("S", tilted);
    assertThat(finding.grade()).isEqualTo(Grade.NOT_CONTACTED);
    assertThat(finding.confirmed()).isFalse();
    assertThat(finding.reason()).contains("sat badly");
    Finding ground =
        grade(
            map().in("interposer-on-lower"),
            "G",
            new Estimates(
                List.of(unproven(1, "G", "E1"), unproven(2, "G", "E1"), unproven(3, "G", "E1")),
                List.of(),
                List.of(),
                List.of()));
    assertThat(ground.grade()).isEqualTo(Grade.NOT_CONTACTED);
    assertThat(ground.reason()).contains("no ground with its voltages");
  }

  @Test
  void seatingsThatSatBadlyDoNotCountAmongOthers() {
    PathEstimate[] paths = {
      none(1, "V1", "G"), none(1, "V2", "G"), none(1, "V3", "G"), none(1, "S", "G"),
      none(1, "T", "G"), none(1, "P1", "G"), none(1, "P2", "G"), none(2, "S", "G")
    };
    Finding finding = grade("S", paths);
    assertThat(finding.grade()).isEqualTo(Grade.OPEN);
    assertThat(finding.seatings()).isEqualTo(1);
  }

  // A path that comes and goes

  @Test
  void oneMissingPathBesideOneSeenIsTheProbe() {
    Finding finding = grade("V1", none(1, "V1", "V2"), value(2, "V1", 0.1, 0.01));
    assertThat(finding.grade()).isEqualTo(Grade.GOOD);
    assertThat(finding.seatings()).isEqualTo(1);
    assertThat(finding.reason()).contains("was the probe, or it comes and goes");
  }

  @Test
  void aPathThatIsMissingTwiceAndSeenOnceIsNotCalledGood() {
    Finding finding =
        grade("V1", none(1, "V1", "V2"), none(2, "V1", "V2"), value(3, "V1", 0.01, 0.001));
    assertThat(finding.grade()).isEqualTo(Grade.UNDECIDED);
    assertThat(finding.seatings()).isEqualTo(3);
    assertThat(finding.confirmed()).isFalse();
    assertThat(finding.reason()).contains("a path in 1 of 3 seatings").contains("comes and goes");
  }

  @Test
  void aPathMissingWhereThePlateSatBadlyDoesNotComeAndGo() {
    Finding finding =
        grade(
            "S",
            none(1, "V1", "G"),
            none(1, "V2", "G"),
            none(1, "V3", "G"),
            none(1, "S", "G"),
            none(1, "T", "G"),
            none(1, "P1", "G"),
            none(1, "P2", "G"),
            none(2, "S", "G"),
            value(3, "S", 0.1, 0.01));
    assertThat(finding.grade()).isEqualTo(Grade.GOOD);
  }

  // Values

  @Test
  void aValueIsGoodWhenItsGuardBandEndsAtTheLimit() {
    double u = 0.02;
    assertThat(grade("V1", value(1, "V1", 0.5 - CLEAR * u - 1e-9, u)).grade())
        .isEqualTo(Grade.GOOD);
    assertThat(grade("V1", value(1, "V1", 0.5 - CLEAR * u + 1e-9, u)).grade())
        .isEqualTo(Grade.UNDECIDED);
    assertThat(grade("V1", value(1, "V1", 0.5 + GUARD * u - 1e-9, u)).grade())
        .isEqualTo(Grade.UNDECIDED);
    assertThat(grade("V1", value(1, "V1", 0.5 + GUARD * u + 1e-9, u)).grade())
        .isEqualTo(Grade.HIGH);
  }

  @Test
  void aValueAtTheLimitWithoutAnyDoubtIsGood() {
    assertThat(grade("V1", value(1, "V1", 0.5, 0)).grade()).isEqualTo(Grade.GOOD);
    assertThat(grade("V1", value(1, "V1", 0.5000001, 0)).grade()).isEqualTo(Grade.HIGH);
    assertThat(grade("V1", value(1, "V1", 0.1, 0)).reason()).doesNotContain("comes and goes");
  }

  @Test
  void aHighValueNamesItsChainAndIsConfirmedBySecondSeating() {
    Finding once = grade("V1", value(1, "V1", 4, 0.02));
    assertThat(once.grade()).isEqualTo(Grade.HIGH);
    assertThat(once.confirmed()).isFalse();
    assertThat(once.among()).isEqualTo(chain("V1"));
    assertThat(once.ohms().orElseThrow().value()).isEqualTo(4);
    assertThat(once.limit()).contains(new Ohms(0.5));
    assertThat(grade("V1", value(1, "V1", 4, 0.02), value(2, "V1", 3, 0.02)).confirmed()).isTrue();
    assertThat(grade("V1", value(1, "V1", 4, 0.02), conducts(2, "V1")).confirmed()).isFalse();
    Finding good = grade("V1", value(1, "V1", 0.01, 0.02), value(2, "V1", 0.02, 0.02));
    assertThat(good.confirmed()).isFalse();
    assertThat(good.among()).isEmpty();
  }

  @Test
  void aHighValueNamesTheProbeWhereItsContactStaysIn() {
    Estimates estimates = calm("V1", sum(1, "V1", 4, 0.02, "V2"));
    Assembly assembly = map().in("interposer-on-lower");
    for (Kelvin kelvin : Kelvin.values()) {
      Capabilities capabilities = Instruments.round(Switching.MULTIPLEXER, kelvin);
      Finding finding =
          new PathRule(
                  assembly,
                  capabilities,
                  new Ring(assembly, capabilities, assembly.contacts()),
                  new Knowledge(assembly, estimates))
              .grade("V1");
      assertThat(finding.among()).hasSize(kelvin.readsContact() ? 8 : 6);
    }
  }

  @Test
  void limitsFollowTheRoleTheExceptionAndTheBoard() {
    SmallMap map =
        map().limits(new Limits(new Ohms(2), new Ohms(0.5), Map.of("V2", new Ohms(0.1))));
    Assembly assembly = map.in("interposer-on-lower");
    Estimates estimates =
        calm("V1", value(1, "V1", 0.3, 0.01), value(1, "V2", 0.3, 0.01), value(1, "S", 1.5, 0.01));
    assertThat(grade(assembly, "V1", estimates).grade()).isEqualTo(Grade.GOOD);
    assertThat(grade(assembly, "V2", estimates).grade()).isEqualTo(Grade.HIGH);
    assertThat(grade(assembly, "S", estimates).grade()).isEqualTo(Grade.GOOD);
    SmallMap mixed = map().pad("M", "VCC", "S").pad("W", "S", "VCC");
    Estimates m = calm("V1", value(1, "M", 1.5, 0.01), value(1, "W", 1.5, 0.01));
    assertThat(grade(mixed.in("interposer-on-lower"), "M", m).grade()).isEqualTo(Grade.GOOD);
    assertThat(grade(mixed.in("interposer-on-lower"), "W", m).grade()).isEqualTo(Grade.HIGH);
    assertThat(grade(mixed.in("interposer"), "M", m).limit()).contains(new Ohms(0.5));
    assertThat(grade(mixed.in("interposer"), "W", m).limit()).contains(new Ohms(0.5));
  }

  @Test
  void aLimitOfLessThanEightUncertaintiesCannotBeResolved() {
    Finding edge = grade("V1", value(1, "V1", 0.001, 0.5 / 8));
    assertThat(edge.grade()).isEqualTo(Grade.GOOD);
    Finding below = grade("V1", value(1, "V1", 0.001, 0.5 / 7.99));
    assertThat(below.grade()).isEqualTo(Grade.UNRESOLVED);
    assertThat(below.detectable().orElseThrow().value()).isCloseTo(8 * 0.5 / 7.99, within(1e-12));
    assertThat(edge.detectable()).isEmpty();
  }

  /** 3.5 ohm read with 1.4 ohm is noise when several hundred pads are read. */
  @Test
  void noiseAboveALimitThatCannotBeResolvedAccusesNobody() {
    assertThat(grade("V1", value(1, "V1", 3.5, 1.4), value(2, "V1", 3.5, 1.4)).grade())
        .isEqualTo(Grade.UNRESOLVED);
    assertThat(grade("V1", value(1, "V1", (8 + GUARD) * 1.4 - 1e-6, 1.4)).grade())
        .isEqualTo(Grade.UNRESOLVED);
    assertThat(grade("V1", value(1, "V1", (8 + GUARD) * 1.4 + 1e-6, 1.4)).grade())
        .isEqualTo(Grade.HIGH);
  }

  @Test
  void theSmallestBoundOfSeveralSeatingsCounts() {
    Finding finding = grade("V1", value(1, "V1", 0.9, 0.02), value(2, "V1", 0.1, 0.02));
    assertThat(finding.grade()).isEqualTo(Grade.GOOD);
    assertThat(finding.ohms().orElseThrow().value()).isEqualTo(0.1);
    // 0.10 with 0.06 is bound by 0.199, 0.15 with 0.01 by 0.166.
    Finding bound = grade("V1", value(1, "V1", 0.1, 0.06), value(2, "V1", 0.15, 0.01));
    assertThat(bound.ohms().orElseThrow().value()).isEqualTo(0.15);
  }

  @Test
  void aSmallSumProvesBothAndOutweighsAValueOfAnotherSeating() {
    Finding finding = grade("V1", value(1, "V1", 3, 0.02), sum(2, "V1", 0.2, 0.02, "V2"));
    assertThat(finding.grade()).isEqualTo(Grade.GOOD);
    assertThat(finding.reason()).contains("with its partner");
  }

  @Test
  void aLargeSumGivesWayToAValueOfItsOwn() {
    Finding high = grade("V1", sum(1, "V1", 3, 0.02, "V2"), value(2, "V1", 3.5, 0.02));
    assertThat(high.grade()).isEqualTo(Grade.HIGH);
    assertThat(high.among()).isEqualTo(chain("V1"));
    assertThat(high.confirmed()).isTrue();
    Finding good = grade("V1", sum(1, "V1", 3, 0.02, "V2"), value(2, "V1", 0.2, 0.02));
    assertThat(good.grade()).isEqualTo(Grade.GOOD);
    assertThat(good.ohms().orElseThrow().value()).isEqualTo(0.2);
  }

  @Test
  void aGoodValueOfItsOwnIsToldBeforeASmallerSum() {
    Finding finding = grade("V1", sum(1, "V1", 0.1, 0.02, "V2"), value(2, "V1", 0.2, 0.02));
    assertThat(finding.ohms().orElseThrow().value()).isEqualTo(0.2);
  }

  @Test
  void aLargeSumAccusesBothOfItsPaths() {
    Finding finding = grade("V1", sum(1, "V1", 3, 0.02, "V2"));
    assertThat(finding.grade()).isEqualTo(Grade.HIGH);
    assertThat(finding.among()).hasSize(6).containsAll(chain("V1")).containsAll(chain("V2"));
  }

  @Test
  void readingsThatContradictEachOtherDecideNothing() {
    for (double ohms : new double[] {0.01, 4}) {
      Finding finding = grade("V1", contradictory(value(1, "V1", ohms, 0.01)));
      assertThat(finding.grade()).isEqualTo(Grade.UNDECIDED);
      assertThat(finding.reason()).contains("contradict");
    }
    Finding steady =
        grade("V1", contradictory(value(1, "V1", 0.01, 0.01)), value(2, "V1", 0.2, 0.01));
    assertThat(steady.grade()).isEqualTo(Grade.GOOD);
    assertThat(steady.ohms().orElseThrow().value()).isEqualTo(0.2);
  }

  @Test
  void aPathWithoutAValueIsConnectedAndNoMore() {
    Finding finding = grade("S", conducts(1, "S", "G"));
    assertThat(finding.grade()).isEqualTo(Grade.UNRESOLVED);
    assertThat(finding.detectable()).isEmpty();
    assertThat(finding.reason()).contains("cannot be told by itself");
  }

  @Test
  void whereTheContactStaysInTheReadingTheFindingSaysSo() {
    Assembly assembly = map().in("interposer-on-lower");
    Estimates estimates = calm("V1", value(1, "V1", 0.01, 0.01));
    Finding two =
        new PathRule(
                assembly,
                Instruments.round(Switching.MULTIPLEXER, Kelvin.NONE),
                new Ring(assembly, Instruments.ideal(Switching.MULTIPLEXER), assembly.contacts()),
                new Knowledge(assembly, estimates))
            .grade("V1");
    assertThat(two.reason()).contains("joint and contact of this seating");
    assertThat(grade(assembly, "V1", estimates).reason()).doesNotContain("contact");
  }

  // Drops

  @Test
  void anExcessOverADropIsHighAtOneInAHundredThousand() {
    double u = 0.1;
    double infinite = Double.POSITIVE_INFINITY;
    assertThat(grade("S", drop(1, "S", 2 + DROP_GUARD * u + 1e-3, u, infinite)).grade())
        .isEqualTo(Grade.HIGH);
    assertThat(grade("S", drop(1, "S", 2 + DROP_GUARD * u - 1e-3, u, infinite)).grade())
        .isEqualTo(Grade.UNDECIDED);
    assertThat(grade("S", drop(1, "S", 2 - CLEAR * u + 1e-6, u, infinite)).grade())
        .isEqualTo(Grade.UNDECIDED);
    assertThat(grade("S", drop(1, "S", 2 - CLEAR * u - 1e-6, u, infinite)).grade())
        .isEqualTo(Grade.GOOD);
    Finding finding = grade("S", drop(1, "S", 9, u, infinite), drop(2, "S", 9, u, infinite));
    assertThat(finding.confirmed()).isTrue();
    assertThat(finding.among()).isEqualTo(chain("S"));
    assertThat(finding.ohms()).isPresent();
    assertThat(grade("S", drop(1, "S", 9, u, infinite), conducts(2, "S")).confirmed()).isFalse();
  }

  /** The quantile of Student's t for two degrees of freedom: (1 - 2 p) / sqrt(2 p (1 - p)). */
  @Test
  void anUncertaintyThatIsItselfUncertainAccusesLess() {
    double p = 1e-5;
    double quantile = (1 - 2 * p) / Math.sqrt(2 * p * (1 - p));
    assertThat(grade("S", drop(1, "S", 2 + 0.999 * quantile * 0.001, 0.001, 2)).grade())
        .isEqualTo(Grade.UNDECIDED);
    assertThat(grade("S", drop(1, "S", 2 + 1.001 * quantile * 0.001, 0.001, 2)).grade())
        .isEqualTo(Grade.HIGH);
  }

  @Test
  void anExcessThatCouldNotHaveBeenSeenLeavesTheValueUnresolved() {
    // Seen nine times in ten: 4.265 + 1.282 uncertainties above zero.
    double u = 2 / (DROP_GUARD + 1.282);
    assertThat(grade("S", drop(1, "S", 0, 0.999 * u, Double.POSITIVE_INFINITY)).grade())
        .isEqualTo(Grade.GOOD);
    Finding finding = grade("S", drop(1, "S", 0, 1.001 * u, Double.POSITIVE_INFINITY));
    assertThat(finding.grade()).isEqualTo(Grade.UNRESOLVED);
    assertThat(finding.detectable().orElseThrow().value()).isCloseTo(2.002, within(0.002));
    assertThat(finding.ohms()).isEmpty();
  }

  @Test
  void aResistanceComesBeforeAnExcess() {
    Finding finding =
        grade("V1", drop(1, "V1", 9, 0.01, Double.POSITIVE_INFINITY), value(2, "V1", 0.2, 0.01));
    assertThat(finding.grade()).isEqualTo(Grade.GOOD);
    assertThat(finding.ohms().orElseThrow().value()).isEqualTo(0.2);
  }

  // What asks for further partners

  @Test
  void aValueIsOddAboveItsLimitAndFarBelowZero() {
    Assembly assembly = map().in("interposer-on-lower");
    PathRule rule =
        new PathRule(
            assembly,
            Instruments.ideal(Switching.MULTIPLEXER),
            new Ring(assembly, Instruments.ideal(Switching.MULTIPLEXER), assembly.contacts()),
            new Knowledge(assembly, calm("V1")));
    double u = 0.02;
    assertThat(rule.isOdd("V1", value(1, "V1", 0.5 - CLEAR * u - 1e-9, u))).isFalse();
    assertThat(rule.isOdd("V1", value(1, "V1", 0.5 - CLEAR * u + 1e-9, u))).isTrue();
    assertThat(rule.isOdd("V1", value(1, "V1", -3 * u + 1e-9, u))).isFalse();
    assertThat(rule.isOdd("V1", value(1, "V1", -3 * u - 1e-9, u))).isTrue();
    assertThat(rule.isOdd("V1", value(1, "V1", 0.4, 0.1))).isFalse();
    assertThat(rule.isOdd("V1", value(1, "V1", 0.8, 0.1))).isTrue();
    assertThat(rule.isOdd("V1", conducts(1, "V1"))).isFalse();
  }
}
