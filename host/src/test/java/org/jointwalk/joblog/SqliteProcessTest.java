package org.jointwalk.joblog;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.jointwalk.job.Logged;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What other processes do to a log, and it to them. */
class SqliteProcessTest {

  @TempDir Path folder = Path.of("");

  private Path file() {
    return folder.resolve("jobs.db");
  }

  private SqliteJobLog log() {
    return new SqliteJobLog(file(), InstantSource.system(), JobLogContract.ZONE);
  }

  @Test
  void programKilledWhileAppendingLosesNothingThatWasAcknowledged() throws Exception {
    long kept = 0;
    for (int lines : List.of(1, 7, 60, 300)) {
      Process child = ChildProgram.start(List.of(), "append", file().toString(), "" + kept);
      long acknowledged = killAfter(lines, child);
      assertThat(folder.resolve("jobs.db-wal"))
          .as("what a program that ends well removes")
          .exists();

      try (SqliteJobLog log = log()) {
        List<Logged> read = log.read("J-0001");
        kept = read.size();
        assertThat(kept).isBetween(acknowledged, acknowledged + 1);
        for (int i = 1; i < read.size(); i++) {
          assertThat(read.get(i).seq()).isEqualTo(i + 1L);
          assertThat(read.get(i).event()).isEqualTo(Events.batch(1, 8 * i, 8));
        }
        kept = log.append("J-0001", kept, List.of(Events.batch(1, 8 * read.size(), 8)));
      }
    }
  }

  /** Kills a child without warning once it has told so many lines; the last number it told. */
  private static long killAfter(int lines, Process child) throws Exception {
    try (BufferedReader reader = ChildProgram.lines(child)) {
      String last = "";
      for (int i = 0; i < lines; i++) {
        last = Optional.ofNullable(reader.readLine()).orElseThrow();
      }
      // The handle kills and leaves the pipe open.
      child.toHandle().destroyForcibly();
      // What it told before the signal arrived was acknowledged too.
      for (String line = reader.readLine(); line != null; line = reader.readLine()) {
        last = line;
      }
      assertThat(child.waitFor(10, TimeUnit.SECONDS)).isTrue();
      return Long.parseLong(last);
    } finally {
      child.destroyForcibly();
    }
  }

  @Test
  void secondProgramOnTheSameJobIsToldSoAndTheFirstGoesOn() throws Exception {
    try (SqliteJobLog log = log()) {
      log.append("J-0001", 0, List.of(Events.OPENED));
      Process child = ChildProgram.start(List.of(), "append-when-told", file().toString(), "1");
      try (BufferedReader told = ChildProgram.lines(child);
          BufferedWriter tell = child.outputWriter(UTF_8)) {
        tell.write("go on\n");
        tell.flush();
        assertThat(told.readLine()).isEqualTo("2");

        assertThat(log.append("J-0001", 2, List.of(Events.noted("mine")))).isEqualTo(3);
        tell.write("go on\n");
        tell.flush();
        assertThat(told.readLine())
            .startsWith("refused Somebody else wrote to J-0001 in " + file())
            .contains("seen with 2 entries and has 3", "Nothing was written");
        assertThat(child.waitFor(10, TimeUnit.SECONDS)).isTrue();
      } finally {
        child.destroyForcibly();
      }
      assertThat(log.append("J-0001", 3, List.of(Events.noted("on")))).isEqualTo(4);
      assertThat(log.read("J-0001").get(1).event()).isEqualTo(Events.batch(1, 8, 8));
    }
  }

  @Test
  void logInAReadOnlyFolderIsReadAndNotWritten() throws Exception {
    try (SqliteJobLog log = log()) {
      log.append("J-0001", 0, List.of(Events.OPENED, Events.noted("second")));
    }
    List<String> told = told("r--r--r--", "r-xr-xr-x");

    assertThat(told).hasSize(2).first().isEqualTo("read 2");
    assertThat(told.get(1))
        .startsWith("refused The job log " + file() + " is read-only. Nothing was written.")
        .contains("Make the file and its folder writable");
  }

  @Test
  void logThatIsReadOnlyInAnOpenFolderIsReadAndNotWritten() throws Exception {
    try (SqliteJobLog log = log()) {
      log.append("J-0001", 0, List.of(Events.OPENED, Events.noted("second")));
    }
    List<String> told = told("r--r--r--", "rwxr-xr-x");

    assertThat(told).hasSize(2).first().isEqualTo("read 2");
    assertThat(told.get(1)).startsWith("refused The job log " + file() + " is read-only.");
  }

  @Test
  void logCannotBeBegunInAReadOnlyFolder() throws Exception {
    List<String> told = told("", "r-xr-xr-x");

    assertThat(told).hasSize(2).first().isEqualTo("read 0");
    assertThat(told.get(1)).startsWith("refused The job log " + file() + " is read-only.");
    assertThat(file()).doesNotExist();
  }

  @Test
  void withoutAPlaceForTheLibraryTheTemporaryFolderIsNamedAsTheCause() throws Exception {
    try (SqliteJobLog log = log()) {
      log.append("J-0001", 0, List.of(Events.OPENED));
    }
    Path plain = Files.writeString(folder.resolve("plain"), "", UTF_8);

    Process child =
        ChildProgram.start(List.of(), "read-then-append", file().toString(), plain.toString());
    try (BufferedReader reader = ChildProgram.lines(child)) {
      assertThat(reader.lines().filter(line -> line.startsWith("refused")).toList())
          .singleElement()
          .asString()
          .contains(file().toString(), "cannot start", "folder for temporary files");
    } finally {
      child.destroyForcibly();
    }
  }

  /** What a program tells that may do only what the permissions say. */
  private List<String> told(String ofFile, String ofFolder) throws Exception {
    if (!ofFile.isEmpty()) {
      Files.setPosixFilePermissions(file(), PosixFilePermissions.fromString(ofFile));
    }
    Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString(ofFolder));
    try {
      // Permissions do not bind the superuser until it has given its powers away.
      List<String> bound =
          Files.isWritable(Path.of("/"))
              ? List.of("setpriv", "--inh-caps=-all", "--bounding-set=-all")
              : List.<String>of();
      Process child = ChildProgram.start(bound, "read-then-append", file().toString());
      try (BufferedReader reader = ChildProgram.lines(child)) {
        return reader.lines().toList();
      } finally {
        child.destroyForcibly();
      }
    } finally {
      restore();
    }
  }

  private void restore() throws IOException {
    Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwx------"));
  }
}
