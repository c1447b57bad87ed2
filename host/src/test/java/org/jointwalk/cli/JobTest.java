package org.jointwalk.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Logged;
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

  /** Runs a command that has to succeed; words are parted at blanks. */
  private void done(String command) {
    assertThat(desk.run(command.split(" "))).as(command + ": " + desk.err()).isZero();
    assertThat(desk.err()).isEmpty();
  }

  /** Runs a command that has to be refused as the user's input, without a trace in the log. */
  private void refused(String command, String... words) {
    List<Logged> before = desk.log().read("J-0001");
    assertThat(desk.run(command.split(" "))).as(command).isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.out()).isEmpty();
    assertThat(desk.err()).contains(words);
    assertThat(desk.log().read("J-0001")).isEqualTo(before);
  }

  private void opened() {
    done("job open --device Saltmarsh --serial SM-00417 --happened dropped --fails radio --by AB");
  }

  private List<Event> events() {
    return desk.log().read("J-0001").stream().map(Logged::event).toList();
  }

  private Event last() {
    List<Event> events = events();
    return events.get(events.size() - 1);
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

    assertThat(events())
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
    done("job open --device Saltmarsh");

    assertThat(events())
        .containsExactly(new Event.Opened(new Intake("Saltmarsh", "", "", List.of(), ""), ""));
  }

  @Test
  void jobsAreNumberedUpwardsPastOtherStreams() {
    desk.log().append("lot 7", 0, List.of(new Event.Noted("no job", "")));
    desk.log().append("J-0041", 0, List.of(opening()));

    done("job open --device Saltmarsh");

    assertThat(desk.out()).startsWith("J-0042  opened");
    assertThat(desk.log().streams()).containsExactly("lot 7", "J-0041", "J-0042");
  }

  @Test
  void twoWhoOpenAtOnceGetDifferentNumbers() {
    desk.withLogs(
        file ->
            new BetweenLog(desk.log(), () -> desk.log().append("J-0001", 0, List.of(opening()))));

    done("job open --device Saltmarsh");

    assertThat(desk.out()).startsWith("J-0002  opened");
    assertThat(desk.log().streams()).containsExactly("J-0001", "J-0002");
  }

  @Test
  void openWithoutADeviceIsRefused() {
    refused("job open", "--device");
    assertThat(desk.run("job", "open", "--device", " ")).isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err()).contains("--device needs the model");
    assertThat(desk.log().streams()).isEmpty();
  }

  @Test
  void seenKeepsSidePositionAndLook() {
    opened();
    done("job seen --job J-0001 --side lower --position N014 --look ball-missing --by CD");

    assertThat(last())
        .isEqualTo(new Event.Looked(new Seen(Side.LOWER, "N014", Seen.Look.BALL_MISSING), "CD"));
    assertThat(desk.lines()).containsExactly("J-0001  seen: lower pad N014 ball missing");
  }

  @Test
  void wordsThatAreNoChoiceAreAnsweredWithTheChoices() {
    opened();
    refused(
        "job seen --job 1 --side lower --position N014 --look burnt",
        "\"burnt\" is none of dry, torn, smeared, ball-missing, ball-low, fine");
    refused(
        "job seen --job 1 --side left --position N014 --look dry",
        "\"left\" is none of upper, lower");
    refused("job clamped --job 1 maybe", "\"maybe\" is none of yes, no, sometimes, not-tried");
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
    assertThat(events()).hasSize(1);
  }

  @Test
  void padThatTheMapOfTheLastPassLacksIsRefused() throws IOException {
    String hash = desk.log().keep("pads", smallMap());
    desk.log().append("J-0001", 0, Recorded.withMap(hash));

    refused(
        "job seen --job 1 --side lower --position N014 --look dry",
        "There is no pad N014 on the Saltmarsh S2",
        "N001 to N006");
    refused("job action --job 1 reball --side lower --positions N001,N9", "no pad N9");
    done("job seen --job 1 --side lower --position N006 --look dry");
    done("job action --job 1 reball --side lower --positions N001,N006");
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
    done("job clamped --job J-0001 " + typed);

    assertThat(last()).isEqualTo(new Event.Clamped(works, ""));
  }

  @Test
  void noteKeepsItsWordsAsTheyAre() {
    opened();
    assertThat(desk.run("job", "note", "--job", "1", "ball  \u00e9cras\u00e9e \u2013 N014"))
        .isZero();

    assertThat(last()).isEqualTo(new Event.Noted("ball  \u00e9cras\u00e9e \u2013 N014", ""));
    assertThat(desk.lines()).containsExactly("J-0001  noted: ball  \u00e9cras\u00e9e \u2013 N014");

    done("job note --job 1 several words --by AB");
    assertThat(last()).isEqualTo(new Event.Noted("several words", "AB"));
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
    done("job show --job " + typed);
    assertThat(desk.out()).startsWith("J-0001  ");
  }

  @Test
  void unknownJobIsRefusedWithTheWayToTheList() {
    opened();
    refused(
        "job show --job J-0009",
        "There is no job J-0009 in " + home,
        "'jointwalk job list' shows the jobs");
    refused("job note --job J-0009 x", "no job J-0009");
    refused("job show --job broken", "\"broken\" is no job number", "J-0001");
    refused("job note x", "--job");
  }

  @Test
  void closedJobTakesNotesOnly() {
    opened();
    done("job close --job 1 --by AB");
    assertThat(last()).isEqualTo(new Event.Closed("AB"));
    assertThat(desk.out()).startsWith("J-0001  closed");

    refused("job close --job 1", "J-0001 is closed");
    refused("job seen --job 1 --side lower --position N014 --look dry", "J-0001 is closed");
    refused("job clamped --job 1 yes", "J-0001 is closed");
    refused("job action --job 1 split --let-go upper", "J-0001 is closed", "open a new job");
    done("job note --job 1 came back");
    assertThat(last()).isEqualTo(new Event.Noted("came back", ""));
  }

  @Test
  void listShowsOneLineForEachJob() {
    opened();
    done("job open --device Saltmarsh");
    done("job action --job 2 split --let-go lower");
    done("job open --device Saltmarsh");
    done("job close --job 3");

    done("job list");

    assertThat(desk.lines())
        .containsExactly(
            "J-0001  2026-03-02  open    Saltmarsh  SM-00417  fails radio  the stack is joined",
            "J-0002  2026-03-02  open    Saltmarsh                         the interposer is on"
                + " the upper board",
            "J-0003  2026-03-02  closed  Saltmarsh");
  }

  @Test
  void listOfAnEmptyLogSaysSoAndMakesNoFile() {
    done("job list");
    assertThat(desk.out()).startsWith("No job yet in " + home);
    assertThat(home).isEmptyDirectory();
  }

  @Test
  void longListShowsTheLatestAndTellsOfTheOthers() {
    for (int i = 1; i <= 23; i++) {
      desk.log().append(String.format(java.util.Locale.ROOT, "J-%04d", i), 0, List.of(opening()));
    }

    done("job list");
    assertThat(desk.lines()).hasSize(21).first().asString().startsWith("J-0004");
    assertThat(desk.lines()).last().isEqualTo("3 older jobs: jointwalk job list --all");

    done("job list --all");
    assertThat(desk.lines()).hasSize(23).first().asString().startsWith("J-0001");
  }

  @Test
  void showTellsFactsAndRecord() {
    opened();
    done("job clamped --job 1 sometimes --by AB");
    done("job action --job 1 split --let-go upper --by CD");
    done("job seen --job 1 --side lower --position N014 --look torn");

    done("job show --job 1");

    assertThat(desk.lines())
        .containsExactly(
            "J-0001  Saltmarsh  open",
            "  serial              SM-00417",
            "  happened            dropped",
            "  fails               radio",
            "  works when clamped  sometimes",
            "  seen                lower pad N014 torn",
            "  now                 the interposer is on the lower board",
            "",
            "Record",
            "  2026-03-02 13:00  AB  came in: Saltmarsh, serial SM-00417, dropped, fails: radio",
            "  2026-03-02 13:00  AB  works when clamped: sometimes",
            "  2026-03-02 13:00  CD  done: split, the upper side let go",
            "  2026-03-02 13:00      seen: lower pad N014 torn");
  }

  @Test
  void showTellsPassesAndTheLastFinding() {
    desk.log().append("J-0001", 0, Recorded.WITH_A_PASS);

    done("job show --job 1");

    assertThat(desk.lines())
        .containsSubsequence(
            "Passes",
            "  1  interposer-on-lower  re-ball check  1 seating   2 readings  1 high resistance",
            "  2  joined               diagnosis      0 seatings  0 readings  not finished",
            "",
            "LOWER JOINTS",
            "NEXT  re-ball the lower side (about 20 min)",
            "",
            "Record");
    assertThat(desk.out())
        .contains("pass 1 begun: interposer-on-lower, re-ball check", "finding: LOWER JOINTS")
        .doesNotContain("readings kept");
  }

  @Test
  void jsonOfShowHoldsWhatTheTextTells() throws IOException {
    desk.log().append("J-0001", 0, Recorded.WITH_A_PASS);

    done("job show --job 1 --json");

    JsonNode json = new ObjectMapper().readTree(desk.out());
    assertThat(json.at("/job").asText()).isEqualTo("J-0001");
    assertThat(json.at("/state").asText()).isEqualTo("open");
    assertThat(json.at("/device").asText()).isEqualTo("Saltmarsh S2");
    assertThat(json.at("/fails/0").asText()).isEqualTo("radio");
    assertThat(json.at("/at").asText()).isEqualTo("2026-03-02T12:00:00Z");
    assertThat(json.at("/zone").asText()).isEqualTo("Europe/Berlin");
    assertThat(json.at("/interposer_on").asText()).isEqualTo("lower");
    assertThat(json.at("/works_clamped").asText()).isEqualTo("not-tried");
    assertThat(json.at("/seen/0/look").asText()).isEqualTo("ball-low");
    assertThat(json.at("/passes")).hasSize(2);
    assertThat(json.at("/passes/0/set_up").asText()).isEqualTo("interposer-on-lower");
    assertThat(json.at("/passes/0/readings").asInt()).isEqualTo(2);
    assertThat(json.at("/passes/0/finished").asBoolean()).isTrue();
    assertThat(json.at("/passes/0/grades/high").asInt()).isEqualTo(1);
    assertThat(json.at("/passes/0/grades/lost_by_split").asInt()).isZero();
    assertThat(json.at("/passes/1/finished").asBoolean()).isFalse();
    assertThat(json.at("/finding/headline").asText()).isEqualTo("LOWER JOINTS");
    assertThat(json.at("/finding/fit").asText()).isEqualTo("fits");
    assertThat(json.at("/record")).hasSize(Recorded.WITH_A_PASS.size());
    assertThat(json.at("/record/5/kind").asText()).isEqualTo("batch-kept");
    assertThat(json.at("/record/5/what").asText()).isEqualTo("pass 1: scan 1, 2 readings kept");
    assertThat(json.at("/record/0/by").asText()).isEqualTo("AB");
    assertThat(json.at("/record/5").has("by")).isFalse();
  }

  @Test
  void jsonOfListHoldsEveryJobAndHowManyAreOlder() throws IOException {
    done("job list --json");
    assertThat(new ObjectMapper().readTree(desk.out()).at("/jobs")).isEmpty();

    opened();
    done("job open --device Saltmarsh --note \u00e9");
    done("job list --json");

    JsonNode json = new ObjectMapper().readTree(desk.out());
    assertThat(json.at("/older_jobs").asInt()).isZero();
    assertThat(json.at("/jobs")).hasSize(2);
    assertThat(json.at("/jobs/0/serial").asText()).isEqualTo("SM-00417");
    assertThat(json.at("/jobs/1").has("serial")).isFalse();
    assertThat(json.at("/jobs/1/note").asText()).isEqualTo("\u00e9");
  }

  @Test
  void actionIsKeptWithEitherOrderOfTheOptions() {
    opened();
    done("job action --job 1 --by AB split --let-go upper");
    assertThat(last()).isEqualTo(new Event.Done(new Action.Split(Side.UPPER), "AB"));

    done("job action lift --job 1 --by CD");
    assertThat(last()).isEqualTo(new Event.Done(new Action.Lift(), "CD"));

    refused("job action wash", "Which job?", "--job J-0001");
  }

  private static Event opening() {
    return new Event.Opened(new Intake("Saltmarsh S2", "", "", List.of(), ""), "");
  }
}
