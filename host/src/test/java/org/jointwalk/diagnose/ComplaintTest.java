package org.jointwalk.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import org.jointwalk.job.Action;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.Region;
import org.jointwalk.job.Verdict;
import org.jointwalk.job.Verdict.Fit;
import org.jointwalk.job.Verdict.Sureness;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.Test;

/** Whether what was found explains the complaint, and who is suspected when nothing was. */
class ComplaintTest {

  private static Story radio() {
    return Story.of(Ring.map(), "radio");
  }

  private static Story splitUpper(String... fails) {
    return Story.of(Ring.map(), fails).split(Side.UPPER);
  }

  private static Story allGood(WorksClamped works) {
    Story story = splitUpper("radio").good("upper-board").good("interposer-on-lower");
    return works == WorksClamped.NOT_TRIED ? story : story.clamped(works);
  }

  @Test
  void wholeStackThatReadsWholeIsNotSplitYet() {
    Verdict verdict = radio().good("joined").verdict();

    assertThat(verdict.headline()).isEqualTo("ALL THAT CAN BE SEEN IS GOOD; THE COMPLAINT STANDS");
    assertThat(verdict.next().what())
        .startsWith("No net behaves as cut, so splitting is not called for yet.");
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
    assertThat(verdict.now()).isEmpty();
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

    assertThat(verdict.headline())
        .isEqualTo("NET V_MAIN SHORTED ON RADIO BOARD (UPPER) (PROBABLY)");
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
}
