package org.jointwalk.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.jointwalk.job.Event;
import org.jointwalk.job.Intake;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class JobShowTest {

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
  void listShowsOneLineForEachJob() {
    opened();
    desk.done("job open --device Saltmarsh");
    desk.done("job action --job 2 split --let-go lower");
    desk.done("job open --device Saltmarsh");
    desk.done("job close --job 3");

    desk.done("job list");

    assertThat(desk.lines())
        .containsExactly(
            "J-0001  2026-03-02  open    Saltmarsh  SM-00417  fails radio  the stack is joined",
            "J-0002  2026-03-02  open    Saltmarsh                         the interposer is on"
                + " the upper board",
            "J-0003  2026-03-02  closed  Saltmarsh");
  }

  @Test
  void listOfAnEmptyLogSaysSoAndMakesNoFile() {
    desk.done("job list");
    assertThat(desk.out()).startsWith("No job yet in " + home);
    assertThat(home).isEmptyDirectory();
  }

  @Test
  void longListShowsTheLatestAndTellsOfTheOthers() {
    for (int i = 1; i <= 23; i++) {
      desk.log().append(String.format(java.util.Locale.ROOT, "J-%04d", i), 0, List.of(opening()));
    }

    desk.done("job list");
    assertThat(desk.lines()).hasSize(21).first().asString().startsWith("J-0004");
    assertThat(desk.lines()).last().isEqualTo("3 older jobs: jointwalk job list --all");

    desk.done("job list --all");
    assertThat(desk.lines()).hasSize(23).first().asString().startsWith("J-0001");
  }

  @Test
  void showTellsFactsAndRecord() {
    opened();
    desk.done("job clamped --job 1 sometimes --by AB");
    desk.done("job action --job 1 split --let-go upper --by CD");
    desk.done("job seen --job 1 --side lower --position N014 --look torn");

    desk.done("job show --job 1");

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

    desk.done("job show --job 1");

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

    desk.done("job show --job 1 --json");

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
    desk.done("job list --json");
    assertThat(new ObjectMapper().readTree(desk.out()).at("/jobs")).isEmpty();

    opened();
    desk.done("job open --device Saltmarsh --note \u00e9");
    desk.done("job list --json");

    JsonNode json = new ObjectMapper().readTree(desk.out());
    assertThat(json.at("/older_jobs").asInt()).isZero();
    assertThat(json.at("/jobs")).hasSize(2);
    assertThat(json.at("/jobs/0/serial").asText()).isEqualTo("SM-00417");
    assertThat(json.at("/jobs/1").has("serial")).isFalse();
    assertThat(json.at("/jobs/1/note").asText()).isEqualTo("\u00e9");
  }

  private static Event opening() {
    return new Event.Opened(new Intake("Saltmarsh S2", "", "", List.of(), ""), "");
  }
}
