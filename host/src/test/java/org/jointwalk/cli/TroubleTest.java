package org.jointwalk.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.job.JobLogException;
import org.jointwalk.joblog.MemoryJobLog;
import org.jointwalk.joblog.SqliteJobLog;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

class TroubleTest {

  @TempDir Path home = Path.of("");

  private final StringWriter err = new StringWriter();

  private int handled(Exception problem) {
    Surroundings surroundings =
        new Surroundings(
            Map.of(),
            home,
            InstantSource.fixed(Desk.NOON),
            Desk.ZONE,
            false,
            () -> {},
            Optional::empty,
            file -> new MemoryJobLog(InstantSource.fixed(Desk.NOON), Desk.ZONE),
            stop -> {});
    CommandLine line = new CommandLine(CommandSpec.create()).setErr(new PrintWriter(err, true));
    return new Trouble(new ProgramLog(surroundings), "pass")
        .handleExecutionException(problem, line, line.parseArgs());
  }

  @Test
  void everyFailureThatIsExpectedHasItsNumberAndKeepsItsWords() {
    assertThat(handled(new InputException("no such pad"))).isEqualTo(2);
    assertThat(handled(new FixtureException.Unreachable("no answer"))).isEqualTo(3);
    assertThat(handled(new FixtureException.Refused("a rail carries 3.1 V"))).isEqualTo(4);
    assertThat(handled(new JobLogException("the log is read-only"))).isEqualTo(5);

    assertThat(err.toString().lines())
        .containsExactly(
            "no such pad", "no answer", "a rail carries 3.1 V", "the log is read-only");
    assertThat(home).isEmptyDirectory();
  }

  @Test
  void faultsOfAFileAreAllToldAsTheUsersInput() {
    FileFaults faults =
        catchThrowableOfType(FileFaults.class, () -> PadMapFile.read("s2.pads.json", "[1, 2"));

    assertThat(handled(faults)).isEqualTo(2);
    assertThat(err.toString()).contains("s2.pads.json").doesNotContain("\tat ");
  }

  @Test
  void failureThatNobodyExpectedIsADefect() {
    assertThat(handled(new IllegalArgumentException("position N999"))).isEqualTo(70);
    assertThat(home.resolve(".jointwalk").resolve("jointwalk.log")).isRegularFile();
  }

  @Test
  void twoDefectsStandOneBelowTheOther() throws IOException {
    handled(new IllegalArgumentException("first"));
    handled(new IllegalArgumentException("second"));
    assertThat(Files.readString(home.resolve(".jointwalk").resolve("jointwalk.log"), UTF_8))
        .containsSubsequence("jointwalk pass", "first", "jointwalk pass", "second");
  }

  @Test
  void fileThatIsNoLogEndsWithTheNumberOfTheLog() throws IOException {
    Path file = Files.writeString(home.resolve("letter.txt"), "Dear customer,", UTF_8);
    Desk desk =
        new Desk(home)
            .withLogs(path -> new SqliteJobLog(path, InstantSource.fixed(Desk.NOON), Desk.ZONE));

    assertThat(desk.run("job", "list", "--log", file.toString()))
        .isEqualTo(ExitCode.JOB_LOG.number());
    assertThat(desk.err()).contains(file + " is not a job log").doesNotContain("\tat ");
  }
}
