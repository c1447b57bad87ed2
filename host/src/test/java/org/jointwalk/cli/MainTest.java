package org.jointwalk.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MainTest {

  @TempDir Path home = Path.of("");

  private Desk desk = new Desk(home);

  @BeforeEach
  void sitDown() {
    desk = new Desk(home);
  }

  @Test
  void versionIsTheOneTheBuildWrote() {
    int code = desk.run("--version");

    assertThat(code).isEqualTo(ExitCode.GOOD.number());
    assertThat(desk.out()).matches("jointwalk \\d+\\.\\d+\\.\\d+(-SNAPSHOT)?\\R");
    assertThat(desk.err()).isEmpty();
  }

  @Test
  void helpShowsAnExampleAndEveryExitCodeWithItsMeaning() {
    int code = desk.run("--help");

    assertThat(code).isEqualTo(ExitCode.GOOD.number());
    assertThat(desk.out()).contains("Usage: jointwalk", "Example:");
    String unwrapped = desk.out().replaceAll("\\s+", " ");
    for (Map.Entry<String, String> entry : ExitCode.list().entrySet()) {
      assertThat(unwrapped).contains(entry.getKey() + " " + entry.getValue());
    }
  }

  @Test
  void exitCodesAreThoseThatScriptsRelyOn() {
    assertThat(Arrays.stream(ExitCode.values()).map(ExitCode::number))
        .containsExactly(0, 10, 11, 2, 3, 4, 5, 6, 70)
        .doesNotContain(1);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "demo",
        "pass",
        "verdict",
        "job",
        "job open",
        "job list",
        "job show",
        "job replay",
        "job action",
        "job action split",
        "job action lift",
        "job action wick",
        "job action wash",
        "job action reball",
        "job action pad-rebuilt",
        "job action jumper",
        "job action part-replaced",
        "job action probes-cleaned",
        "job seen",
        "job clamped",
        "job note",
        "job close",
        "map",
        "map check",
        "map from-csv",
        "map to-csv"
      })
  void helpOfEveryCommandNamesItAndShowsAnExample(String command) throws IOException {
    String[] words = (command + " --help").strip().split(" ");

    assertThat(desk.run(words)).isEqualTo(0);

    assertThat(desk.out())
        .contains("Usage: " + ("jointwalk " + command).strip(), "Example:")
        .doesNotContain("\u001b");
    assertThat(desk.err()).isEmpty();
    assertThat(home).isEmptyDirectory();
  }

  @Test
  void examplesInTheHelpWorkWhenDoneInTheOrderOfTheBench() {
    List<String> order =
        List.of(
            "",
            "job open",
            "job list",
            "job seen",
            "job clamped",
            "job note",
            "job action split",
            "job action lift",
            "job action wick",
            "job action pad-rebuilt",
            "job action jumper",
            "job action part-replaced",
            "job action wash",
            "job action probes-cleaned",
            "job action reball",
            "job show",
            "job close");
    for (String command : order) {
      desk.run((command + " --help").strip().split(" "));
      List<String> examples =
          desk.lines().stream().filter(line -> line.startsWith("  jointwalk job ")).toList();
      assertThat(examples).as(command).isNotEmpty();
      for (String example : examples) {
        String[] words = words(example.strip().substring("jointwalk ".length()));
        assertThat(desk.run(words)).as(example + desk.err()).isEqualTo(ExitCode.GOOD.number());
      }
    }
  }

  /** The words of a line as a shell would part them, double quotes only. */
  private static String[] words(String line) {
    return Pattern.compile("\"([^\"]*)\"|(\\S+)")
        .matcher(line)
        .results()
        .map(word -> word.group(1) == null ? word.group(2) : word.group(1))
        .toArray(String[]::new);
  }

  @ParameterizedTest
  @ValueSource(strings = {"job action split", "job action lift", "job action reball"})
  void helpOfAStepThatCanHurtSaysWhatToBewareOf(String command) {
    desk.run((command + " --help").split(" "));

    assertThat(desk.out().replaceAll("\\s+", " "))
        .contains(
            "CAUTION",
            "Battery out",
            "fumes",
            "eye protection",
            "Wrist strap",
            "Leaded or lead-free",
            "Local rules and licensed practice come first.");
  }

  @Test
  void unknownOptionIsTheUsersInput() {
    int code = desk.run("--no-such-option");

    assertThat(code).isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.out()).isEmpty();
    assertThat(desk.err()).contains("--no-such-option", "Try 'jointwalk --help'.");
  }

  @Test
  void mistypedCommandIsAnsweredWithThoseThereAre() {
    assertThat(desk.run("job", "lsit")).isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err())
        .contains("'lsit'", "Choose one of: open, list", "'jointwalk job --help'");

    assertThat(desk.run("work")).isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err())
        .contains("'work'", "Choose one of: demo, pass, verdict, job, map, fixture.");
  }

  @Test
  void mistypedOptionIsAnsweredWithTheLikelyOne() {
    assertThat(desk.run("job", "open", "--devise", "Saltmarsh S2", "--device", "x")).isEqualTo(2);
    assertThat(desk.err()).contains("'--devise'", "--device", "'jointwalk job open --help'");
  }

  @Test
  void commandWithoutItsPartListsTheParts() {
    assertThat(desk.run("job")).isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err())
        .contains(
            "Choose one of: open, list, show, action, seen, clamped, report, replay, note, close.");

    assertThat(desk.run("job", "action", "--job", "1")).isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err()).contains("Choose one of: split, lift, wick, wash, reball");
  }

  @Test
  void defectLeavesItsDetailsInAFileAndNoStackTraceOnTheTerminal() throws IOException {
    desk.withLogs(
        file -> {
          throw new IllegalStateException("invented");
        });

    assertThat(desk.run("job", "list")).isEqualTo(ExitCode.DEFECT.number());

    Path details = home.resolve(".jointwalk").resolve("jointwalk.log");
    assertThat(desk.out()).isEmpty();
    assertThat(desk.err())
        .contains("defect of jointwalk", "IllegalStateException", details.toString())
        .doesNotContain("\tat ", "invented");
    assertThat(Files.readString(details, UTF_8))
        .startsWith("2026-03-02T12:00:00Z jointwalk job list")
        .contains("java.lang.IllegalStateException: invented", "\tat org.jointwalk.cli.");
  }

  @Test
  void errorOfTheMachineEndsAsADefectToo() {
    desk.withLogs(
        file -> {
          throw new NoClassDefFoundError("org/sqlite/JDBC");
        });

    assertThat(desk.run("job", "list")).isEqualTo(ExitCode.DEFECT.number());
    assertThat(desk.err()).contains("NoClassDefFoundError").doesNotContain("\tat ");
  }

  @Test
  void defectWhoseDetailsCannotBeKeptSaysSo() throws IOException {
    Files.writeString(home.resolve(".jointwalk"), "a file where the folder should be", UTF_8);
    desk.withLogs(
        file -> {
          throw new IllegalStateException("invented");
        });

    assertThat(desk.run("job", "list")).isEqualTo(ExitCode.DEFECT.number());
    assertThat(desk.err()).contains("could not be kept", "jointwalk.log");
  }

  @Test
  void coloursShowOnATerminalOnly() {
    List<String> open = List.of("job", "open", "--device", "Saltmarsh S2");
    String[] words = open.toArray(String[]::new);

    desk.run(words);
    assertThat(desk.out()).doesNotContain("\u001b").contains("NEXT");

    desk.onATerminal().run(words);
    assertThat(desk.out()).contains("\u001b[1mNEXT\u001b[0m");

    desk.run("job", "open", "--device", "Saltmarsh S2", "--plain");
    assertThat(desk.out()).doesNotContain("\u001b").contains("NEXT");

    desk.run("--plain", "job", "open", "--device", "Saltmarsh S2");
    assertThat(desk.out()).doesNotContain("\u001b");

    desk.with("NO_COLOR", "1").run(words);
    assertThat(desk.out()).doesNotContain("\u001b").contains("NEXT");
  }

  @Test
  void dumbTerminalGetsNoColours() {
    desk.onATerminal().with("TERM", "dumb").run("job", "open", "--device", "Saltmarsh S2");
    assertThat(desk.out()).doesNotContain("\u001b");
  }
}
