package org.jointwalk.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.InstantSource;
import java.util.Arrays;
import java.util.List;
import org.jointwalk.joblog.SqliteJobLog;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LogPlaceTest {

  private static final String[] OPEN = {"job", "open", "--device", "Saltmarsh S2"};

  @TempDir Path home = Path.of("");

  private Desk desk = new Desk(home);

  @BeforeEach
  void sitDown() {
    desk =
        new Desk(home)
            .withLogs(path -> new SqliteJobLog(path, InstantSource.fixed(Desk.NOON), Desk.ZONE));
  }

  @Test
  void logIsInTheHomeFolderUnlessAnotherIsNamed() {
    desk.run(OPEN);
    assertThat(home.resolve(".jointwalk").resolve("jobs.db")).isRegularFile();
    assertThat(desk.run("job", "show", "--job", "1")).isZero();
  }

  @Test
  void variableNamesAnotherLog() {
    Path named = home.resolve("shop").resolve("s2.db");
    desk.with("JOINTWALK_LOG", named.toString()).run(OPEN);

    assertThat(named).isRegularFile();
    assertThat(desk.out()).contains("Kept in " + named);
    assertThat(home.resolve(".jointwalk")).doesNotExist();
  }

  @Test
  void emptyVariableNamesNone() {
    desk.with("JOINTWALK_LOG", " ").run(OPEN);
    assertThat(home.resolve(".jointwalk").resolve("jobs.db")).isRegularFile();
  }

  @Test
  void variableThatIsNoFileNameIsTheUsersInput() {
    assertThat(desk.with("JOINTWALK_LOG", "a\0b").run(OPEN)).isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err()).contains("JOINTWALK_LOG is", "no name of a file");
  }

  @Test
  void folderIsNoLog() {
    for (String folder : List.of(home.toString(), "/", "")) {
      for (String[] command : List.of(OPEN, new String[] {"job", "list"})) {
        String[] words = Arrays.copyOf(command, command.length + 2);
        words[command.length] = "--log";
        words[command.length + 1] = folder;
        assertThat(desk.run(words)).as(folder).isEqualTo(ExitCode.JOB_LOG.number());
        assertThat(desk.err()).contains("is a folder");
      }
    }
  }

  @Test
  void optionComesBeforeTheVariableWhereverItStands() {
    desk.with("JOINTWALK_LOG", home.resolve("shop.db").toString());
    Path other = home.resolve("other.db");

    desk.run("job", "open", "--device", "Saltmarsh S2", "--log", other.toString());
    assertThat(desk.run("job", "--log", other.toString(), "show", "--job", "1")).isZero();
    assertThat(
            desk.run(
                "job",
                "action",
                "split",
                "--let-go",
                "upper",
                "--job",
                "1",
                "--log",
                other.toString()))
        .isZero();

    assertThat(other).isRegularFile();
    assertThat(home.resolve("shop.db")).doesNotExist();
  }

  @Test
  void readingMakesNoLog() {
    assertThat(desk.run("job", "list")).isZero();
    assertThat(desk.run("job", "show", "--job", "1")).isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.run("job", "note", "--job", "1", "x")).isEqualTo(ExitCode.INPUT.number());
    assertThat(home).isEmptyDirectory();
  }
}
