package org.jointwalk.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Seen;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class JobTest {

  @TempDir Path home = Path.of("");

  private Desk desk = new Desk(home);

  @BeforeEach
  void sitDown() {
    desk = new Desk(home);
  }

  private void opened() {
    desk.done(
        "job open --device Saltmarsh --serial SM-00417 --happened dropped --fails radio --by AB");
  }

  @Test
  void openKeepsAllThatWasToldAndNumbersTheJob() {
    assertThat(
            desk.run(
                "job",
                "open",
                "--device",
                "Saltmarsh S2",
                "--serial",
                "SM-00417",
                "--happened",
                "dropped",
                "--fails",
                "Radio, touch",
                "--fails",
                "radio",
                "--note",
                "from the north hide",
                "--by",
                "AB"))
        .isZero();

    assertThat(desk.events())
        .containsExactly(
            new Event.Opened(
                new Intake(
                    "Saltmarsh S2",
                    "SM-00417",
                    "dropped",
                    List.of("radio", "touch"),
                    "from the north hide"),
                "AB"));
    assertThat(desk.lines())
        .containsExactly(
            "J-0001  opened: Saltmarsh S2, serial SM-00417, dropped, fails: radio, touch"
                + " (from the north hide)",
            "Kept in " + home.resolve(".jointwalk").resolve("jobs.db"),
            "NEXT  splitting destroys evidence, so measure the joined stack first:"
                + " jointwalk pass --job J-0001 --set-up joined");
  }

  @Test
  void whatWasNotToldStaysEmpty() {
    desk.done("job open --device Saltmarsh");

    assertThat(desk.events())
        .containsExactly(new Event.Opened(new Intake("Saltmarsh", "", "", List.of(), ""), ""));
  }

  @Test
  void jobsAreNumberedUpwardsPastOtherStreams() {
    desk.log().append("lot 7", 0, List.of(new Event.Noted("no job", "")));
    desk.log().append("J-0041", 0, List.of(opening()));

    desk.done("job open --device Saltmarsh");

    assertThat(desk.out()).startsWith("J-0042  opened");
    assertThat(desk.log().streams()).containsExactly("lot 7", "J-0041", "J-0042");
  }

  @Test
  void twoWhoOpenAtOnceGetDifferentNumbers() {
    desk.withLogs(
        file ->
            new BetweenLog(desk.log(), () -> desk.log().append("J-0001", 0, List.of(opening()))));

    desk.done("job open --device Saltmarsh");

    assertThat(desk.out()).startsWith("J-0002  opened");
    assertThat(desk.log().streams()).containsExactly("J-0001", "J-0002");
  }

  @Test
  void openWithoutADeviceIsRefused() {
    desk.refused("job open", "--device");
    assertThat(desk.run("job", "open", "--device", " ")).isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err()).contains("--device needs the model");
    assertThat(desk.log().streams()).isEmpty();
  }

  @Test
  void seenKeepsSidePositionAndLook() {
    opened();
    desk.done("job seen --job J-0001 --side lower --position N014 --look ball-missing --by CD");

    assertThat(desk.last())
        .isEqualTo(new Event.Looked(new Seen(Side.LOWER, "N014", Seen.Look.BALL_MISSING), "CD"));
    assertThat(desk.lines()).containsExactly("J-0001  seen: lower pad N014 ball missing");
  }

  @Test
  void wordsThatAreNoChoiceAreAnsweredWithTheChoices() {
    opened();
    desk.refused(
        "job seen --job 1 --side lower --position N014 --look burnt",
        "\"burnt\" is none of dry, torn, smeared, ball-missing, ball-low, fine");
    desk.refused(
        "job seen --job 1 --side left --position N014 --look dry",
        "\"left\" is none of upper, lower");
    desk.refused("job clamped --job 1 maybe", "\"maybe\" is none of yes, no, sometimes, not-tried");
  }

  @Test
  void positionWithABlankIsNoPosition() {
    opened();
    assertThat(
            desk.run(
                "job",
                "seen",
                "--job",
                "1",
                "--side",
                "lower",
                "--position",
                "N 14",
                "--look",
                "dry"))
        .isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err()).contains("\"N 14\" is no pad", "N014");
    assertThat(desk.events()).hasSize(1);
  }

  @Test
  void padThatTheMapOfTheLastPassLacksIsRefused() throws IOException {
    String hash = desk.log().keep("pads", smallMap());
    desk.log().append("J-0001", 0, Recorded.withMap(hash));

    desk.refused(
        "job seen --job 1 --side lower --position N014 --look dry",
        "There is no pad N014 on the Saltmarsh S2",
        "N001 to N006");
    desk.refused("job action --job 1 reball --side lower --positions N001,N9", "no pad N9");
    desk.done("job seen --job 1 --side lower --position N006 --look dry");
    desk.done("job action --job 1 reball --side lower --positions N001,N006");
  }

  private static String smallMap() throws IOException {
    try (InputStream map = PadMapFile.class.getResourceAsStream("small.pads.json")) {
      return new String(Objects.requireNonNull(map).readAllBytes(), UTF_8);
    }
  }

  @ParameterizedTest
  @CsvSource({"yes, YES", "NO, NO", "sometimes, SOMETIMES", "not-tried, NOT_TRIED"})
  void clampedKeepsTheAnswer(String typed, WorksClamped works) {
    opened();
    desk.done("job clamped --job J-0001 " + typed);

    assertThat(desk.last()).isEqualTo(new Event.Clamped(works, ""));
  }

  @Test
  void noteKeepsItsWordsAsTheyAre() {
    opened();
    assertThat(desk.run("job", "note", "--job", "1", "ball  \u00e9cras\u00e9e \u2013 N014"))
        .isZero();

    assertThat(desk.last()).isEqualTo(new Event.Noted("ball  \u00e9cras\u00e9e \u2013 N014", ""));
    assertThat(desk.lines()).containsExactly("J-0001  noted: ball  \u00e9cras\u00e9e \u2013 N014");

    desk.done("job note --job 1 several words --by AB");
    assertThat(desk.last()).isEqualTo(new Event.Noted("several words", "AB"));
  }

  @Test
  void noteCannotSteerTheTerminal() {
    opened();
    assertThat(desk.run("job", "note", "--job", "1", "a\u001b[2Jb\nc")).isZero();
    assertThat(desk.lines()).containsExactly("J-0001  noted: a [2Jb c");
  }

  @ParameterizedTest
  @ValueSource(strings = {"J-0001", "j-0001", "J-1", "j1", "1", "0001"})
  void jobMayBeNamedInShort(String typed) {
    opened();
    desk.done("job show --job " + typed);
    assertThat(desk.out()).startsWith("J-0001  ");
  }

  @Test
  void unknownJobIsRefusedWithTheWayToTheList() {
    opened();
    desk.refused(
        "job show --job J-0009",
        "There is no job J-0009 in " + home,
        "'jointwalk job list' shows the jobs");
    desk.refused("job note --job J-0009 x", "no job J-0009");
    desk.refused("job show --job broken", "\"broken\" is no job number", "J-0001");
    desk.refused("job note x", "--job");
  }

  @Test
  void closedJobTakesNotesOnly() {
    opened();
    desk.done("job close --job 1 --by AB");
    assertThat(desk.last()).isEqualTo(new Event.Closed("AB"));
    assertThat(desk.out()).startsWith("J-0001  closed");

    desk.refused("job close --job 1", "J-0001 is closed");
    desk.refused("job seen --job 1 --side lower --position N014 --look dry", "J-0001 is closed");
    desk.refused("job clamped --job 1 yes", "J-0001 is closed");
    desk.refused("job action --job 1 split --let-go upper", "J-0001 is closed", "open a new job");
    desk.done("job note --job 1 came back");
    assertThat(desk.last()).isEqualTo(new Event.Noted("came back", ""));
  }

  @Test
  void actionIsKeptWithEitherOrderOfTheOptions() {
    opened();
    desk.done("job action --job 1 --by AB split --let-go upper");
    assertThat(desk.last()).isEqualTo(new Event.Done(new Action.Split(Side.UPPER), "AB"));

    desk.done("job action lift --job 1 --by CD");
    assertThat(desk.last()).isEqualTo(new Event.Done(new Action.Lift(), "CD"));

    desk.refused("job action wash", "Which job?", "--job J-0001");
  }

  private static Event opening() {
    return new Event.Opened(new Intake("Saltmarsh S2", "", "", List.of(), ""), "");
  }
}
