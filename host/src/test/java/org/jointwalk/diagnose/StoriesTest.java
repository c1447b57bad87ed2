package org.jointwalk.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Region;
import org.jointwalk.job.Seen;
import org.jointwalk.job.Verdict;
import org.jointwalk.job.Verdict.Fit;
import org.jointwalk.job.Verdict.Group;
import org.jointwalk.job.Verdict.Sureness;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.Test;

/** Short stories with one point each: what a pass finds and what it means. */
class StoriesTest {

  private static Story radio() {
    return Story.of(Ring.map(), "radio");
  }

  private static Story splitUpper(String... fails) {
    return Story.of(Ring.map(), fails).split(Side.UPPER);
  }

  @Test
  void stackWithoutTestPointsIsSplitAtOnce() {
    Story story =
        Story.of(Ring.map(Map.of(Side.UPPER, "radio board", Side.LOWER, "main board"), false));

    assertThat(story.verdict().next().what()).startsWith("Split the stack");
    assertThat(story.verdict().next().minutes()).isEqualTo(20);
  }

  @Test
  void wholeStackThatReadsAsCutIsSplit() {
    Verdict verdict = radio().pass("joined").open("N09").end().verdict();

    assertThat(verdict.groups()).hasSize(1);
    Group group = verdict.groups().get(0);
    assertThat(group.sureness()).isEqualTo(Sureness.UNDECIDED);
    assertThat(group.regions()).hasSize(5);
    assertThat(verdict.next().what()).startsWith("Split the stack");
  }

  @Test
  void openReadOnceIsJointOrContactAndAsksForAnotherClamping() {
    Verdict verdict =
        splitUpper("radio").pass("interposer-on-lower").openOnce("N09").end().verdict();

    assertThat(verdict.headline()).isEqualTo("NO STEADY PATH AT N09: JOINT OR CONTACT");
    assertThat(verdict.groups().get(0).sureness()).isEqualTo(Sureness.UNDECIDED);
    assertThat(verdict.groups().get(0).components()).anyMatch(Component.Probe.class::isInstance);
    assertThat(verdict.fit()).isEqualTo(Fit.NOTHING_FOUND);
    assertThat(verdict.next().minutes()).isEqualTo(1);
    assertThat(verdict.next().setUp()).contains("interposer-on-lower");
  }

  @Test
  void openReadOnceAndGoodAfterwardsWasTheProbe() {
    Verdict verdict =
        splitUpper()
            .pass("interposer-on-lower")
            .openOnce("N09")
            .end()
            .good("interposer-on-lower")
            .verdict();

    assertThat(verdict.groups()).isEmpty();
    assertThat(verdict.now()).isEmpty();
  }

  @Test
  void doubtfulPadIsReadAgainWhereItWasDoubtful() {
    Verdict verdict =
        splitUpper()
            .pass("interposer-on-lower")
            .openOnce("N09")
            .end()
            .good("upper-board")
            .verdict();

    assertThat(verdict.next().setUp()).contains("interposer-on-lower");
  }

  @Test
  void openReadOnceInTwoClampingsIsConfirmed() {
    Verdict verdict =
        splitUpper()
            .pass("interposer-on-lower")
            .openOnce("N09")
            .end()
            .pass("interposer-on-lower")
            .openOnce("N09")
            .end()
            .verdict();

    assertThat(verdict.groups()).hasSize(1);
    assertThat(verdict.groups().get(0).components()).noneMatch(Component.Probe.class::isInstance);
    assertThat(verdict.headline()).startsWith("1 PAD UNDECIDED");
  }

  @Test
  void confirmedOpenThatIsGoodInTheNextPassComesAndGoes() {
    Verdict verdict =
        splitUpper()
            .pass("interposer-on-lower")
            .open("N09")
            .end()
            .good("interposer-on-lower")
            .verdict();

    assertThat(verdict.groups()).hasSize(1);
    assertThat(verdict.groups().get(0).sureness()).isEqualTo(Sureness.UNDECIDED);
    assertThat(verdict.groups().get(0).because()).contains("it comes and goes");
    assertThat(verdict.headline()).isEqualTo("NO STEADY PATH AT N09: JOINT OR CONTACT");
    assertThat(verdict.next().setUp()).contains("upper-board");
  }

  @Test
  void pathThatComesAndGoesIsPressedBeforeAnythingIsLifted() {
    Verdict verdict =
        splitUpper()
            .good("upper-board")
            .pass("interposer-on-lower")
            .open("N09")
            .end()
            .good("interposer-on-lower")
            .verdict();

    assertThat(verdict.next().what())
        .isEqualTo(
            "Measure the interposer on the lower board again while pressing near N09: it came and"
                + " went.");
  }

  @Test
  void probesThatDidNotLandAreNoFault() {
    Verdict verdict =
        splitUpper()
            .pass("interposer-on-lower")
            .grade(Grade.NOT_CONTACTED, "N13", "N14")
            .in(1)
            .end()
            .verdict();

    assertThat(verdict.groups()).isEmpty();
    assertThat(verdict.headline()).isEqualTo("NO FAULT SEEN; NOT DECIDED AT N13, N14");
    assertThat(verdict.next().what())
        .startsWith("Open, re-seat and measure the interposer on the lower board again: N13, N14");
  }

  @Test
  void probesThatMissTwiceAreCleaned() {
    Verdict verdict =
        splitUpper()
            .pass("interposer-on-lower")
            .grade(Grade.UNDECIDED, "N13")
            .in(2)
            .end()
            .verdict();

    assertThat(verdict.next().what()).startsWith("Clean the probes at N13, re-seat");
  }

  @Test
  void threeClampingsAreEnough() {
    Verdict verdict =
        splitUpper()
            .pass("interposer-on-lower")
            .grade(Grade.NOT_CONTACTED, "N13")
            .in(3)
            .end()
            .verdict();

    assertThat(verdict.next().setUp()).contains("upper-board");
  }

  @Test
  void viaIsLocatedInTheBareInterposer() {
    Verdict verdict =
        splitUpper("radio")
            .good("upper-board")
            .pass("interposer-on-lower")
            .open("N09")
            .end()
            .lift()
            .good("lower-board")
            .pass("interposer")
            .open("N09")
            .end()
            .verdict();

    assertThat(verdict.groups()).hasSize(1);
    assertThat(verdict.groups().get(0).components()).containsExactly(new Component.Via("N09"));
    assertThat(verdict.groups().get(0).sureness()).isEqualTo(Sureness.LOCATED);
    assertThat(verdict.next().what()).startsWith("Fit another interposer");
  }

  @Test
  void highPadDoesNotExplainAPathThatIsOpen() {
    Verdict verdict =
        splitUpper()
            .pass("interposer-on-lower")
            .open("N09")
            .end()
            .lift()
            .pass("lower-board")
            .high(4, "N09")
            .end()
            .good("interposer")
            .verdict();

    assertThat(verdict.groups()).hasSize(2);
    assertThat(verdict.groups())
        .extracting(g -> g.regions().get(0))
        .containsExactlyInAnyOrder(Region.LOWER_JOINTS, Region.LOWER_BOARD);
  }

  @Test
  void goodGradeThatWouldHaveMissedItClearsNothing() {
    Verdict verdict =
        splitUpper()
            .pass("interposer-on-lower")
            .high(1.5, "N09")
            .end()
            .lift()
            .pass("lower-board")
            .blind(2.6, "N09")
            .end()
            .good("interposer")
            .verdict();

    assertThat(verdict.groups().get(0).components()).contains(new Component.Pad(Side.LOWER, "N09"));
    assertThat(verdict.notSeen())
        .anyMatch(s -> s.contains("up to 2.6 ohm in series would not show"));
  }

  @Test
  void sumOfTwoJointsNamesBothPads() {
    Verdict verdict =
        splitUpper().pass("interposer-on-lower").highSum(1.5, "N07", "N08").end().verdict();

    assertThat(verdict.groups()).hasSize(1);
    assertThat(verdict.groups().get(0).positions()).containsExactly("N07", "N08");
    assertThat(verdict.groups().get(0).sureness()).isEqualTo(Sureness.UNDECIDED);
  }

  @Test
  void jointSeenDryAndLostUnmeasuredIsAPerhaps() {
    Verdict verdict = splitUpper("radio").saw(Side.UPPER, "N10", Seen.Look.DRY).verdict();

    assertThat(verdict.groups().get(0).sureness()).isEqualTo(Sureness.UNDECIDED);
    assertThat(verdict.groups().get(0).because()).isEqualTo("Seen there: dry. Not measured.");
    assertThat(verdict.now()).isEmpty();
  }

  @Test
  void jointThatLooksDryAndIsConnectedIsRemarkedAndNotAccused() {
    Verdict verdict =
        splitUpper().saw(Side.LOWER, "N10", Seen.Look.DRY).good("interposer-on-lower").verdict();

    assertThat(verdict.groups()).isEmpty();
    assertThat(verdict.remarks()).anyMatch(s -> s.startsWith("N10 on the lower side looks bad"));
  }

  @Test
  void secondLookReplacesTheFirst() {
    Verdict verdict =
        splitUpper()
            .saw(Side.LOWER, "N10", Seen.Look.DRY)
            .saw(Side.LOWER, "N10", Seen.Look.FINE)
            .verdict();

    assertThat(verdict.groups()).isEmpty();
  }

  @Test
  void maskedPadsAreCountedWithTheirNetAndNeverCalledGood() {
    Verdict verdict = splitUpper().good("interposer-on-lower").verdict();

    assertThat(verdict.notSeen())
        .contains(
            "The interposer on the lower board: 6 pads seen only as a set (GND); 2 pads not read,"
                + " without a path for direct current; 2 pads not read, unused.");
  }

  @Test
  void passThatWasBegunIsFinishedFirst() {
    Verdict verdict = splitUpper().good("upper-board").begun("interposer-on-lower").verdict();

    assertThat(verdict.next().what()).isEqualTo("Finish pass 2, which was begun and not graded.");
  }

  @Test
  void passThatWasBegunAndCannotBeFinishedIsLeftAlone() {
    Verdict verdict = splitUpper().begun("interposer-on-lower").lift().verdict();

    assertThat(verdict.next().setUp()).contains("lower-board");
  }

  @Test
  void closedJobNeedsNothing() {
    assertThat(splitUpper().good("upper-board").closed().verdict().next().minutes()).isZero();
  }

  @Test
  void openOnMetalThatTheInterposerSharesNamesAllThatIsThere() {
    PadMap map = Ring.tied(Ring.map(), "N01", "N02");

    Verdict verdict =
        Story.of(map).split(Side.UPPER).pass("interposer-on-lower").open("N01").end().verdict();

    assertThat(verdict.groups()).hasSize(1);
    assertThat(verdict.groups().get(0).components()).contains(new Component.Via("N01"));
  }

  @Test
  void liveNetIsNotSuspectedOfAnOpenPath() {
    Verdict verdict =
        splitUpper()
            .pass("interposer-on-lower")
            .openAmong(
                "N09",
                new Component.Joint(Side.LOWER, "N09"),
                new Component.Pad(Side.LOWER, "N09"),
                new Component.NetOf(new NetId(Side.LOWER, "S9")))
            .end()
            .lift()
            .good("lower-board")
            .verdict();

    assertThat(verdict.groups().get(0).components())
        .containsExactly(new Component.Joint(Side.LOWER, "N09"));
  }
}
