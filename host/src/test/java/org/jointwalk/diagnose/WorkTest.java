package org.jointwalk.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import org.jointwalk.job.Action;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.Region;
import org.jointwalk.job.Seen;
import org.jointwalk.job.Verdict;
import org.jointwalk.job.Verdict.Fit;
import org.jointwalk.job.Verdict.Sureness;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.Test;

/** What work does to what was known. */
class WorkTest {

  private static Story radio() {
    return Story.of(Ring.map(), "radio");
  }

  private static Story splitUpper(String... fails) {
    return Story.of(Ring.map(), fails).split(Side.UPPER);
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
  void padThatWasFirstReadAfterTheSplitMayHaveComeOffWithIt() {
    Verdict verdict = splitUpper().pass("upper-board").open("N13").end().verdict();

    assertThat(verdict.groups().get(0).sureness()).isEqualTo(Sureness.LOCATED);
    assertThat(verdict.remarks())
        .contains(
            "N13: first read after its side had let go, so the pad may have come off with that.");
  }

  @Test
  void railThatIsShortedOnlyWithTheNewJointsIsShortedByThem() {
    Verdict verdict =
        splitUpper()
            .lift()
            .good("lower-board")
            .good("interposer")
            .reball(Side.LOWER)
            .check("interposer-on-lower")
            .board(Side.LOWER, "V_MAIN", BoardFinding.Fault.SHORTED)
            .end()
            .verdict();

    assertThat(verdict.now()).hasSize(1);
    assertThat(verdict.now().get(0).regions()).containsExactly(Region.LOWER_JOINTS);
    assertThat(verdict.now().get(0).sureness()).isEqualTo(Sureness.PROBABLY);
    assertThat(verdict.next().what()).startsWith("Touch up N07, N08 on the lower side");
  }

  @Test
  void liftedInterposerIsSolderedOnAgainWhenPressingHelps() {
    Verdict verdict =
        Story.of(Ring.map(), "radio")
            .split(Side.UPPER)
            .lift()
            .good("lower-board")
            .good("interposer")
            .good("upper-board")
            .clamped(WorksClamped.YES)
            .verdict();

    assertThat(verdict.groups().get(0).regions())
        .isSubsetOf(Region.UPPER_JOINTS, Region.LOWER_JOINTS);
    assertThat(verdict.next().what()).startsWith("Re-ball the lower side");
  }
}
