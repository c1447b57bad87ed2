package org.jointwalk.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.jointwalk.job.Action;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Region;
import org.jointwalk.job.Seen;
import org.jointwalk.job.Verdict;
import org.jointwalk.job.Verdict.Fit;
import org.jointwalk.job.Verdict.Group;
import org.jointwalk.job.Verdict.Sureness;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.Test;

/** Short stories with one point each. */
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
  void wholeStackThatReadsWholeIsNotSplitYet() {
    Verdict verdict = radio().good("joined").verdict();

    assertThat(verdict.headline()).isEqualTo("ALL THAT CAN BE SEEN IS GOOD; THE COMPLAINT STANDS");
    assertThat(verdict.next().what())
        .startsWith("No net behaves as cut, so splitting is not called for yet.");
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
  void jointThatReadsGoodAfterTheHeatOfTheSplitIsNotWrongNow() {
    Verdict verdict =
        radio()
            .pass("joined")
            .open("N09")
            .end()
            .split(Side.UPPER)
            .good("interposer-on-lower")
            .good("upper-board")
            .verdict();

    assertThat(verdict.groups()).hasSize(1);
    assertThat(verdict.groups().get(0).components())
        .containsExactlyInAnyOrder(
            new Component.Joint(Side.UPPER, "N09"), new Component.Joint(Side.LOWER, "N09"));
    assertThat(verdict.now()).isEmpty();
  }

  @Test
  void afterALiftThePadMayStillBeOffUntilItIsMeasured() {
    Verdict verdict =
        splitUpper("radio").pass("interposer-on-lower").open("N09").end().lift().verdict();

    assertThat(verdict.now()).hasSize(1);
    assertThat(verdict.now().get(0).components())
        .containsExactly(new Component.Pad(Side.LOWER, "N09"), new Component.Via("N09"));
    assertThat(verdict.now().get(0).because())
        .contains("Or it was in the lower joint, since lost or renewed.");
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
  void anotherInterposerHasNoneOfTheOldViasFaults() {
    Verdict verdict =
        splitUpper("radio")
            .lift()
            .pass("interposer")
            .open("N09")
            .end()
            .done(new Action.PartReplaced(Side.LOWER, "interposer"))
            .verdict();

    assertThat(verdict.groups()).hasSize(1);
    assertThat(verdict.now()).isEmpty();
    assertThat(verdict.notSeen())
        .contains("The bare interposer has not been measured as it is now.");
  }

  @Test
  void padThatCameOffWithTheLiftDoesNotExplainTheComplaint() {
    Verdict verdict =
        splitUpper("radio")
            .good("upper-board")
            .good("interposer-on-lower")
            .lift()
            .pass("lower-board")
            .open("N09")
            .end()
            .good("interposer")
            .verdict();

    assertThat(verdict.groups())
        .noneMatch(g -> g.components().contains(new Component.Pad(Side.LOWER, "N09")));
    assertThat(verdict.now().get(0).components())
        .containsExactly(new Component.Pad(Side.LOWER, "N09"));
    assertThat(verdict.fit()).isEqualTo(Fit.NOTHING_FOUND);
    assertThat(verdict.remarks())
        .contains(
            "N09: the pad was good before the work and is not now; it does not explain the"
                + " complaint.");
    assertThat(verdict.next().what()).startsWith("Rebuild the pad at N09");
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
    assertThat(verdict.notSeen()).anyMatch(s -> s.contains("less than 2.6 ohm would not have"));
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
  void faultOnAnotherFunctionDoesNotFitAndLeavesTheBoardsSuspected() {
    Verdict verdict =
        splitUpper("radio")
            .good("upper-board")
            .pass("interposer-on-lower")
            .open("N13")
            .end()
            .verdict();

    assertThat(verdict.fit()).isEqualTo(Fit.DOES_NOT_FIT);
    assertThat(verdict.remarks()).contains("Nothing that was found explains radio.");
    assertThat(verdict.groups())
        .anyMatch(g -> g.components().contains(new Component.Hidden(Side.UPPER, "radio")));
  }

  @Test
  void faultOnARailMayFit() {
    Verdict verdict = splitUpper("radio").pass("interposer-on-lower").open("N07").end().verdict();

    assertThat(verdict.fit()).isEqualTo(Fit.MAY_FIT);
    assertThat(verdict.remarks()).anyMatch(s -> s.contains("may explain radio"));
  }

  @Test
  void halfExplainedComplaintSaysWhatIsLeft() {
    Verdict verdict =
        splitUpper("radio", "touch").pass("interposer-on-lower").open("N09").end().verdict();

    assertThat(verdict.fit()).isEqualTo(Fit.MAY_FIT);
    assertThat(verdict.remarks())
        .contains("Radio runs through N09.", "Nothing that was found explains touch.");
  }

  @Test
  void complaintThatWasNotSaidIsNotJudged() {
    assertThat(splitUpper().pass("interposer-on-lower").open("N09").end().verdict().fit())
        .isEqualTo(Fit.NOT_SAID);
  }

  @Test
  void allGoodWithComplaintSuspectsTheBoardThatCarriesTheFunctionFirst() {
    Verdict verdict = allGood(WorksClamped.NO).verdict();

    assertThat(verdict.headline()).isEqualTo("ALL THAT CAN BE SEEN IS GOOD; THE COMPLAINT STANDS");
    assertThat(verdict.groups())
        .extracting(g -> g.regions().get(0))
        .containsExactly(Region.UPPER_BOARD, Region.LOWER_BOARD, Region.UPPER_JOINTS);
    assertThat(verdict.groups()).allMatch(g -> g.sureness() == Sureness.UNDECIDED);
    assertThat(verdict.fit()).isEqualTo(Fit.NOTHING_FOUND);
    assertThat(verdict.next().what())
        .startsWith("Do not re-ball yet. Look for the fault on the radio board")
        .contains("the other board is possible too");
  }

  @Test
  void allGoodAndUntriedAsksToPressTheHalvesTogether() {
    assertThat(allGood(WorksClamped.NOT_TRIED).verdict().next().what())
        .startsWith("Press the halves together");
  }

  @Test
  void allGoodAndWorkingClampedMakesTheLostJointsProbable() {
    Verdict verdict = allGood(WorksClamped.YES).verdict();

    assertThat(verdict.groups().get(0).regions()).containsExactly(Region.UPPER_JOINTS);
    assertThat(verdict.groups().get(0).sureness()).isEqualTo(Sureness.PROBABLY);
    assertThat(verdict.groups().get(0).positions()).containsExactly("N09", "N10", "N11", "N12");
    assertThat(verdict.now())
        .allMatch(g -> g.components().stream().allMatch(Component.Hidden.class::isInstance));
    assertThat(verdict.next().what()).startsWith("Re-ball the upper side and close");
  }

  @Test
  void workingClampedSometimesIsWeakerThanAlways() {
    Verdict verdict = allGood(WorksClamped.SOMETIMES).verdict();

    assertThat(verdict.groups().get(0).regions()).containsExactly(Region.UPPER_JOINTS);
    assertThat(verdict.groups().get(0).sureness()).isEqualTo(Sureness.UNDECIDED);
    assertThat(verdict.next().what()).startsWith("Do not re-ball yet.");
  }

  @Test
  void shortedRailOnTheLoneBoardIsHuntedWithCare() {
    Verdict verdict =
        splitUpper("radio")
            .pass("upper-board")
            .board(Side.UPPER, "V_MAIN", BoardFinding.Fault.SHORTED)
            .end()
            .good("interposer-on-lower")
            .verdict();

    assertThat(verdict.headline()).startsWith("NET V_MAIN SHORTED ON RADIO BOARD (UPPER BOARD)");
    assertThat(verdict.groups().get(0).sureness()).isEqualTo(Sureness.PROBABLY);
    assertThat(verdict.fit()).isEqualTo(Fit.MAY_FIT);
    assertThat(verdict.next().what())
        .contains("current limit before voltage")
        .contains("never above it");
  }

  @Test
  void shortThatTwoPassesReadIsLocated() {
    Verdict verdict =
        splitUpper("radio")
            .pass("interposer-on-lower")
            .board(Side.LOWER, "V_MAIN", BoardFinding.Fault.SHORTED)
            .end()
            .lift()
            .pass("lower-board")
            .board(Side.LOWER, "V_MAIN", BoardFinding.Fault.SHORTED)
            .end()
            .verdict();

    assertThat(verdict.groups().get(0).sureness()).isEqualTo(Sureness.LOCATED);
    assertThat(verdict.groups().get(0).regions()).containsExactly(Region.LOWER_BOARD);
  }

  @Test
  void replacedPartIsUnknownAgain() {
    Verdict verdict =
        splitUpper()
            .pass("upper-board")
            .board(Side.UPPER, "V_MAIN", BoardFinding.Fault.SHORTED)
            .end()
            .done(new Action.PartReplaced(Side.UPPER, "C12"))
            .verdict();

    assertThat(verdict.groups()).hasSize(1);
    assertThat(verdict.now()).isEmpty();
    assertThat(verdict.notSeen())
        .contains("The upper board alone has not been measured as it is now.");
  }

  @Test
  void bridgeFromADropIsNotBlamedOnSolderAlone() {
    Verdict verdict =
        splitUpper().pass("interposer-on-lower").bridge("N09", "N10", 0.03).end().verdict();

    assertThat(verdict.groups().get(0).sureness()).isEqualTo(Sureness.UNDECIDED);
    assertThat(verdict.groups().get(0).regions())
        .containsExactlyInAnyOrder(Region.LOWER_JOINTS, Region.LOWER_BOARD);
  }

  @Test
  void bridgeOfManyOhmsIsWashedFirst() {
    Verdict verdict =
        splitUpper()
            .lift()
            .good("lower-board")
            .good("interposer")
            .good("upper-board")
            .reball(Side.LOWER)
            .check("interposer-on-lower")
            .bridge("N09", "N10", 20_000)
            .end()
            .verdict();

    assertThat(verdict.next().what()).startsWith("Wash and dry: N09-N10 looks like residue.");
    assertThat(verdict.next().minutes()).isEqualTo(18);
  }

  @Test
  void smearedPadLocatesABridge() {
    Verdict verdict =
        splitUpper()
            .lift()
            .good("lower-board")
            .reball(Side.LOWER)
            .saw(Side.LOWER, "N09", Seen.Look.SMEARED)
            .check("interposer-on-lower")
            .bridge("N09", "N10", 0.03)
            .end()
            .verdict();

    assertThat(verdict.now().get(0).sureness()).isEqualTo(Sureness.LOCATED);
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
  void jointThatFailsAgainAfterTouchingUpIsLookedAt() {
    Verdict verdict =
        splitUpper()
            .lift()
            .good("lower-board")
            .good("interposer")
            .reball(Side.LOWER)
            .check("interposer-on-lower")
            .open("N09")
            .end()
            .reball(Side.LOWER, "N09")
            .check("interposer-on-lower")
            .open("N09")
            .end()
            .verdict();

    assertThat(verdict.headline()).isEqualTo("NOT YET: TOUCH UP N09");
    assertThat(verdict.remarks()).anyMatch(s -> s.startsWith("N09 failed again"));
  }

  @Test
  void otherBoardIsMeasuredBeforeClosing() {
    Verdict verdict =
        splitUpper()
            .lift()
            .good("lower-board")
            .good("interposer")
            .reball(Side.LOWER)
            .check("interposer-on-lower")
            .end()
            .verdict();

    assertThat(verdict.next().what()).isEqualTo("Before closing, measure the upper board alone.");
  }

  @Test
  void freshlyRebuiltPadIsAsSuspectAsItsFreshJoint() {
    Verdict verdict =
        splitUpper()
            .lift()
            .pass("lower-board")
            .open("N15")
            .end()
            .good("interposer")
            .done(new Action.PadRebuilt(Side.LOWER, "N15"))
            .reball(Side.LOWER)
            .check("interposer-on-lower")
            .open("N15")
            .end()
            .verdict();

    assertThat(verdict.now().get(0).sureness()).isEqualTo(Sureness.UNDECIDED);
    assertThat(verdict.headline()).isEqualTo("NOT YET: TOUCH UP N15");
  }

  @Test
  void maskedPadsAreNamedWithTheirNetAndNeverCalledGood() {
    Verdict verdict = splitUpper().good("interposer-on-lower").verdict();

    assertThat(verdict.notSeen())
        .contains(
            "The interposer on the lower board: 6 pads are seen only as a set (GND), because other"
                + " paths join them; a single fault among them does not show.")
        .anyMatch(s -> s.contains("2 pads not seen (N23, N24): unused"))
        .anyMatch(s -> s.contains("2 pads not seen (N21, N22): no path for direct current"));
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

  private static Story allGood(WorksClamped works) {
    Story story = splitUpper("radio").good("upper-board").good("interposer-on-lower");
    return works == WorksClamped.NOT_TRIED ? story : story.clamped(works);
  }
}
