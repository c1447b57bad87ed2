package org.jointwalk.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.jointwalk.job.Action;
import org.jointwalk.job.Region;
import org.jointwalk.job.Seen;
import org.jointwalk.job.Verdict;
import org.jointwalk.job.Verdict.Fit;
import org.jointwalk.job.Verdict.Group;
import org.jointwalk.job.Verdict.Sureness;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.Test;

/**
 * A dropped handset whose radio fails, from intake to closing: six lower joints and one lower pad
 * are broken, one joint is high; two of the joints are seen to be dry.
 */
class DemoStoryTest {

  private final Story story = Story.of(Ring.map(), "radio");

  @Test
  void wholeStackIsMeasuredAtItsTestPointsBeforeItIsSplit() {
    Verdict verdict = story.verdict();

    assertThat(verdict.headline()).isEqualTo("NOTHING MEASURED YET");
    assertThat(verdict.groups()).isEmpty();
    assertThat(verdict.next().setUp()).contains("joined");
  }

  @Test
  void opensBetweenInterposerAndBoardAreNotToldApart() {
    Verdict verdict = upToInterposerOnLower().verdict();

    assertThat(verdict.headline())
        .isEqualTo(
            "LOWER JOINTS AT 2 PADS (LOCATED); 6 PADS UNDECIDED: LOWER JOINT, LOWER PAD OR VIA");
    Group open = verdict.groups().get(1);
    assertThat(open.sureness()).isEqualTo(Sureness.UNDECIDED);
    assertThat(open.regions())
        .containsExactly(Region.LOWER_JOINTS, Region.LOWER_BOARD, Region.INTERPOSER);
    assertThat(open.positions()).containsExactly("N07", "N11", "N12", "N13", "N14", "N15");
    assertThat(open.components())
        .contains(
            new Component.Joint(Side.LOWER, "N11"),
            new Component.Pad(Side.LOWER, "N11"),
            new Component.Via("N11"));
    assertThat(open.because())
        .contains("cannot be told apart by what was measured")
        .contains("high resistance at N07 (4.5 ohm, limit 0.3 ohm)");
    assertThat(verdict.now()).isEqualTo(verdict.groups());
    assertThat(verdict.fit()).isEqualTo(Fit.FITS);
    assertThat(verdict.remarks()).contains("Radio runs through N09, N10, N11, N12.");
    assertThat(verdict.next().setUp()).contains("lower-board");
    assertThat(verdict.next().minutes()).isEqualTo(18);
    assertThat(verdict.next().what()).startsWith("Lift the interposer off the main board");
  }

  @Test
  void dryJointsAreLocatedBySightAndPath() {
    Group dry = upToInterposerOnLower().verdict().groups().get(0);

    assertThat(dry.sureness()).isEqualTo(Sureness.LOCATED);
    assertThat(dry.positions()).containsExactly("N09", "N10");
    assertThat(dry.because()).contains("Seen there: dry.");
  }

  @Test
  void lowerBoardAloneGivesUpItsTornPad() {
    Verdict verdict = upToLowerBoard().verdict();

    Group torn = group(verdict.groups(), Region.LOWER_BOARD);
    assertThat(torn.sureness()).isEqualTo(Sureness.LOCATED);
    assertThat(torn.components()).containsExactly(new Component.Pad(Side.LOWER, "N15"));
    assertThat(verdict.now()).containsExactly(torn);
    assertThat(verdict.next().setUp()).contains("interposer");
  }

  @Test
  void jointsThatAreLeftAreProbableByExclusionAndNoMore() {
    Verdict verdict = upToInterposer().verdict();

    assertThat(verdict.headline())
        .isEqualTo(
            "LOWER JOINTS AT 7 PADS (2 LOCATED, 5 PROBABLY); MAIN BOARD (LOWER) AT 1 PAD"
                + " (LOCATED)");
    Group joints = verdict.groups().get(2);
    assertThat(joints.sureness()).isEqualTo(Sureness.PROBABLY);
    assertThat(joints.regions()).containsExactly(Region.LOWER_JOINTS);
    assertThat(joints.because())
        .contains("the lower pad is good (the lower board alone)")
        .contains("the via is good (the bare interposer)");
    assertThat(verdict.next().what())
        .startsWith("Rebuild the pad at N15 on the main board (lower), then re-ball the");
    assertThat(verdict.next().minutes()).isEqualTo(73);
  }

  @Test
  void probeThatMayBeBentForGoodIsNamedUnlessAnotherPassProvedIt() {
    String words = "1 pad (N11) would read the same if the probe there were bent or dirty for good";

    assertThat(openByJointOrProbe(story.split(Side.UPPER)).notSeen())
        .anyMatch(s -> s.contains(words));
    Story proven =
        Story.of(Ring.map(), "radio")
            .split(Side.UPPER)
            .lift()
            .good("lower-board")
            .reball(Side.LOWER);
    assertThat(openByJointOrProbe(proven).notSeen()).noneMatch(s -> s.contains(words));
  }

  private static Verdict openByJointOrProbe(Story story) {
    Component probe = new Component.Probe(new Contact.Pad(Plate.OVER, "N11"));
    return story
        .pass("interposer-on-lower")
        .openAmong("N11", new Component.Joint(Side.LOWER, "N11"), probe)
        .end()
        .verdict();
  }

  @Test
  void reballIsNotThereYetWhileOneIsOpenAndTwoAreJoined() {
    Verdict verdict = upToFirstCheck().verdict();

    assertThat(verdict.headline()).isEqualTo("NOT YET: TOUCH UP N18, N19-N20");
    assertThat(verdict.now()).hasSize(2).allMatch(g -> g.sureness() == Sureness.PROBABLY);
    assertThat(verdict.now()).allMatch(g -> g.regions().equals(List.of(Region.LOWER_JOINTS)));
    assertThat(verdict.groups()).isEqualTo(upToInterposerVerdictGroups());
    assertThat(verdict.next().what())
        .startsWith("Touch up N18 and clear the bridge N19-N20 on the lower side, record it");
  }

  @Test
  void touchedUpJointIsNeitherBadNorGoodUntilItIsChecked() {
    Verdict verdict = upToFirstCheck().reball(Side.LOWER, "N18", "N19", "N20").verdict();

    assertThat(verdict.now()).isEmpty();
    assertThat(verdict.headline()).endsWith("IS NOT CHECKED YET");
    assertThat(verdict.next().setUp()).contains("interposer-on-lower");
  }

  @Test
  void sideThatTookNamesTheSideThatDoesNotExistYet() {
    Story took = upToFirstCheck().reball(Side.LOWER, "N18", "N19", "N20");
    Verdict verdict = took.check("interposer-on-lower").end().verdict();

    assertThat(verdict.headline())
        .isEqualTo("THIS SIDE TOOK: 14 OF 14 THAT CAN BE SEEN; THE UPPER SIDE DOES NOT EXIST YET");
    assertThat(verdict.now()).isEmpty();
    assertThat(verdict.next().what()).startsWith("Re-ball the upper side and close the stack");
    assertThat(verdict.notSeen())
        .contains("The new upper joints do not exist yet.")
        .endsWith("Connected means connected under clamp pressure.");
  }

  @Test
  void closedStackIsCheckedAndThenTried() {
    Story closed =
        upToFirstCheck()
            .reball(Side.LOWER, "N18", "N19", "N20")
            .check("interposer-on-lower")
            .end()
            .reball(Side.UPPER);

    assertThat(closed.verdict().headline()).isEqualTo("CLOSED AND NOT CHECKED YET");
    Verdict checked = closed.good("joined").verdict();
    assertThat(checked.headline()).startsWith("CLOSED: 14 OF 14");
    assertThat(checked.next().what()).startsWith("Try every function");
  }

  private Story upToInterposerOnLower() {
    return story
        .split(Side.UPPER)
        .saw(Side.LOWER, "N09", Seen.Look.DRY)
        .saw(Side.LOWER, "N10", Seen.Look.DRY)
        .good("upper-board")
        .clamped(WorksClamped.SOMETIMES)
        .pass("interposer-on-lower")
        .open("N09", "N10", "N11", "N12", "N13", "N14", "N15")
        .high(4.5, "N07")
        .end();
  }

  private Story upToLowerBoard() {
    return upToInterposerOnLower().lift().pass("lower-board").open("N15").end();
  }

  private Story upToInterposer() {
    return upToLowerBoard().good("interposer");
  }

  private Story upToFirstCheck() {
    return upToInterposer()
        .done(new Action.PadRebuilt(Side.LOWER, "N15"))
        .reball(Side.LOWER)
        .check("interposer-on-lower")
        .open("N18")
        .bridge("N19", "N20", 0.03)
        .end();
  }

  private static List<Group> upToInterposerVerdictGroups() {
    return new DemoStoryTest().upToInterposer().verdict().groups();
  }

  private static Group group(List<Group> groups, Region region) {
    return groups.stream().filter(g -> g.regions().get(0) == region).findFirst().orElseThrow();
  }
}
