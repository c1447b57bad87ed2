package org.jointwalk.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class JobActionTest {

  @TempDir Path home = Path.of("");

  private Desk desk = new Desk(home);

  @BeforeEach
  void openAJob() {
    desk = new Desk(home);
    assertThat(desk.run("job", "open", "--device", "Saltmarsh S2")).isZero();
  }

  private int action(String words) {
    return desk.run(("job action --job J-0001 " + words).split(" "));
  }

  private void done(String... actions) {
    for (String words : actions) {
      desk.done("job action --job J-0001 " + words);
    }
  }

  private void refused(String words, String... complaint) {
    desk.refused("job action --job J-0001 " + words, complaint);
    assertThat(desk.err()).startsWith("J-0001: ").contains("Nothing was kept.");
  }

  private List<Action> actions() {
    return Job.fold("J-0001", desk.log().read("J-0001")).actions();
  }

  @Test
  void everyActionIsKeptAsItWasTyped() {
    done(
        "split --let-go upper",
        "wick --side upper",
        "lift",
        "wick --side lower",
        "pad-rebuilt --side lower --position N014",
        "jumper --side lower --position N015 --to TP7",
        "part-replaced --side upper --part U3",
        "wash",
        "probes-cleaned",
        "reball --side lower",
        "reball --side lower --positions N001,N002,N001",
        "reball --side upper");

    assertThat(actions())
        .containsExactly(
            new Action.Split(Side.UPPER),
            new Action.Wick(Side.UPPER),
            new Action.Lift(),
            new Action.Wick(Side.LOWER),
            new Action.PadRebuilt(Side.LOWER, "N014"),
            new Action.Jumper(Side.LOWER, "N015", "TP7"),
            new Action.PartReplaced(Side.UPPER, "U3"),
            new Action.Wash(),
            new Action.ProbesCleaned(),
            new Action.Reball(Side.LOWER, List.of()),
            new Action.Reball(Side.LOWER, List.of("N001", "N002")),
            new Action.Reball(Side.UPPER, List.of()));
  }

  @Test
  void splitSaysWhatIsThereNowAndWhatCanBeClamped() {
    done("split --let-go upper");

    assertThat(desk.lines())
        .containsSubsequence(
            "CAUTION",
            "J-0001  done: split, the upper side let go",
            "Now: the interposer is on the lower board",
            "Can be clamped now: upper-board, interposer-on-lower",
            "The joints of the upper side are lost as evidence: from now on they are judged by"
                + " exclusion only.");
  }

  @Test
  void closingTheStackMakesTheJoinedSetUpPossibleAgain() {
    done("split --let-go upper", "reball --side upper");

    assertThat(desk.lines()).contains("Now: the stack is joined", "Can be clamped now: joined");
  }

  @Test
  void actionThatLeavesTheInterposerWhereItIsSaysNothingOfIt() {
    done("probes-cleaned");
    assertThat(desk.lines()).containsExactly("J-0001  done: probes cleaned");
  }

  @Test
  void splitOfASplitStackIsRefused() {
    done("split --let-go lower");
    refused("split --let-go lower", "split already", "the interposer is on the upper board");
    refused("split --let-go upper", "split already");
    done("lift");
    refused("split --let-go upper", "split already", "the interposer is on neither board");
  }

  @Test
  void liftingBeforeTheSplitIsRefusedWithWhatIsMissing() {
    refused("lift", "cannot be lifted before the stack is split", "job action split --let-go");
    done("split --let-go upper", "lift");
    refused("lift", "is lifted already");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "wick --side lower",
        "reball --side lower",
        "reball --side lower --positions N001",
        "pad-rebuilt --side lower --position N014",
        "jumper --side lower --position N014 --to TP7"
      })
  void padsInsideAJoinedStackCannotBeWorkedOn(String words) {
    refused(words, "cannot be reached", "Keep the split first: job action split --let-go");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "wick --side lower",
        "reball --side lower",
        "pad-rebuilt --side lower --position N014",
        "jumper --side lower --position N014 --to TP7"
      })
  void padsUnderTheInterposerCannotBeWorkedOnBeforeItIsLifted(String words) {
    done("split --let-go upper");
    refused(words, "soldered to the lower board", "Keep the lifting first: job action lift");
    done("lift", words);
  }

  @ParameterizedTest
  @CsvSource({"upper, lower", "lower, upper"})
  void sideThatLetGoCanBeWorkedOnAtOnce(String letGo, String held) {
    done("split --let-go " + letGo, "wick --side " + letGo);
    refused("wick --side " + held, "Keep the lifting first");
  }

  @Test
  void singleJointsMayBeTouchedUpWhereTheInterposerSits() {
    done("split --let-go upper", "reball --side lower --positions N001,N002");
    assertThat(desk.lines()).contains("J-0001  done: lower side re-balled at N001, N002");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "split",
        "wick",
        "reball",
        "pad-rebuilt --side lower",
        "jumper --side lower",
        "part-replaced --side upper"
      })
  void actionWithoutItsDetailsIsRefused(String words) {
    assertThat(action(words)).isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err()).contains("Missing required option", "--help'");
    assertThat(actions()).isEmpty();
  }

  @Test
  void emptyDetailsAreRefused() {
    assertThat(
            desk.run(
                "job", "action", "--job", "1", "part-replaced", "--side", "upper", "--part", " "))
        .isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err()).contains("--part needs a name");
    assertThat(action("reball --side lower --positions N001,,N002"))
        .isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err()).contains("\"\" is no pad");
  }

  @ParameterizedTest
  @ValueSource(strings = {"split --let-go upper", "lift", "reball --side lower"})
  void stepWithHeatShowsItsCautions(String words) {
    if (!words.startsWith("split")) {
      done("split --let-go upper");
    }
    if (words.startsWith("reball")) {
      done("lift");
    }
    done(words);

    assertThat(desk.lines())
        .containsSubsequence(
            "CAUTION",
            "  Battery out and board discharged before any heat.",
            "  A swollen or punctured cell is not worked on; it goes to a safe place.",
            "  Hot plate, hot air, fumes: eye protection on, extraction on.",
            "  Wrist strap on, mat earthed.",
            "  Leaded or lead-free: know it before you heat.",
            "  Never low-melt bismuth alloy on leaded solder.",
            "  Local rules and licensed practice come first.");
  }

  @Test
  void refusedActionIsAnsweredAheadOfAnyCaution() {
    refused("lift", "cannot be lifted");
    assertThat(desk.err()).doesNotContain("CAUTION");
  }

  @Test
  void rebuiltPadIsPromisedNothingButItsElectricalPart() {
    done("split --let-go upper", "pad-rebuilt --side upper --position N014");
    assertThat(desk.lines())
        .contains("What is measured about it later is electrical only, not how well it holds.");
  }

  @Test
  void actionOnAJobThatSomebodyElseChangedMeanwhileIsRefusedByTheLog() {
    // The second program comes between the reading and the writing of the first.
    desk.withLogs(
        file ->
            new BetweenLog(
                desk.log(),
                () ->
                    desk.log()
                        .append("J-0001", 1, List.of(new Event.Noted("by the other one", "")))));

    assertThat(action("split --let-go upper")).isEqualTo(ExitCode.JOB_LOG.number());
    assertThat(desk.err()).contains("Somebody else wrote to J-0001", "do it again");
    assertThat(actions()).isEmpty();
  }
}
