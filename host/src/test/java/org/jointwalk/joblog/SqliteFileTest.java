package org.jointwalk.joblog;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.List;
import org.jointwalk.job.Logged;
import org.junit.jupiter.api.Test;

/** What only a log in a file can suffer from its place and from other programs. */
class SqliteFileTest extends InAFolder {

  @Test
  void readingMakesNeitherFileNorFolder() throws IOException {
    try (SqliteJobLog log = log(folder.resolve("a").resolve("jobs.db"))) {
      assertThat(log.streams()).isEmpty();
      assertThat(log.read("J-0001")).isEmpty();
      assertThat(log.text("00")).isEmpty();
    }
    assertThat(names()).isEmpty();
  }

  @Test
  void readingLeavesNothingBeside() throws IOException {
    write(2);
    byte[] before = Files.readAllBytes(file());

    try (SqliteJobLog log = log()) {
      assertThat(log.read("J-0001")).hasSize(2);
    }

    assertThat(names()).containsExactly("jobs.db");
    assertThat(Files.readAllBytes(file())).isEqualTo(before);
  }

  @Test
  void firstAppendMakesFileAndFolders() {
    Path deep = folder.resolve("a").resolve("b").resolve("jobs.db");
    try (SqliteJobLog log = log(deep)) {
      log.append("J-0001", 0, List.of(Events.OPENED));
    }
    assertThat(deep).isRegularFile();
  }

  @Test
  void logThatSomebodyElseBeginsIsSeenByAReaderThatFoundNone() {
    try (SqliteJobLog reader = log();
        SqliteJobLog writer = log()) {
      assertThat(reader.streams()).isEmpty();
      writer.append("J-0001", 0, List.of(Events.OPENED));
      assertThat(reader.streams()).containsExactly("J-0001");
      writer.append("J-0001", 1, List.of(Events.noted("second")));
      assertThat(reader.read("J-0001")).hasSize(2);
    }
  }

  @Test
  void fileNameMayHoldWhatOtherProgramsTakeForParameters() throws IOException {
    String name = "what? 100% #1; mode=memory&cache=shared.db";
    try (SqliteJobLog log = log(folder.resolve(name))) {
      log.append("J-0001", 0, List.of(Events.OPENED));
    }
    assertThat(names()).containsExactly(name);
  }

  @Test
  void scanThatIsPlannedTwiceIsKeptOnce() throws SQLException {
    try (SqliteJobLog log = log()) {
      log.append("J-0001", 0, Events.EVERY_KIND);
      log.append("J-0002", 0, Events.EVERY_KIND);
      log.keep("pads", "{}");
      log.keep("pads", "{}");
    }
    assertThat(query("SELECT kind FROM content ORDER BY kind")).containsExactly("pads", "scan");
  }

  @Test
  void appendThatFailsHalfWayLeavesNothing() throws SQLException {
    write(1);
    execute(
        "CREATE TRIGGER third BEFORE INSERT ON event WHEN NEW.seq = 3"
            + " BEGIN SELECT RAISE(ABORT, 'no third'); END");

    try (SqliteJobLog log = log()) {
      assertRefused(
          () ->
              log.append(
                  "J-0001",
                  1,
                  List.of(
                      new org.jointwalk.job.Event.ScanPlanned(1, 1, 1, Events.SCAN),
                      Events.noted("third"))),
          "failed",
          "no third",
          file().toString());
      assertThat(log.read("J-0001")).hasSize(1);
      assertThat(log.append("J-0001", 1, List.of(Events.noted("second")))).isEqualTo(2);
    }
    assertThat(query("SELECT kind FROM content")).isEmpty();
  }

  @Test
  void logThatAnotherProgramHoldsIsNamedAsLocked() throws SQLException {
    write(1);
    try (SqliteJobLog log = log();
        Connection other = DriverManager.getConnection("jdbc:sqlite:" + file());
        Statement statement = other.createStatement()) {
      assertThat(log.read("J-0001")).hasSize(1);
      statement.execute("BEGIN IMMEDIATE");

      assertRefused(
          () -> log.append("J-0001", 1, List.of(Events.noted("second"))),
          file().toString(),
          "locked by another program",
          "waited 0.05 s",
          "do it again");
      assertThat(log.read("J-0001")).hasSize(1);

      statement.execute("ROLLBACK");
      assertThat(log.append("J-0001", 1, List.of(Events.noted("second")))).isEqualTo(2);
    }
  }

  @Test
  void writerWaitsForAnotherProgramsCommit() throws Exception {
    write(1);
    SqliteJobLog log =
        new SqliteJobLog(file(), new JobLogContract.SteppingClock(), JobLogContract.ZONE);
    try (log;
        Connection other = DriverManager.getConnection("jdbc:sqlite:" + file());
        Statement statement = other.createStatement()) {
      statement.execute("BEGIN IMMEDIATE");
      Thread writer = new Thread(() -> log.append("J-0001", 1, List.of(Events.noted("second"))));
      writer.start();
      writer.join(100);
      assertThat(writer.isAlive()).as("the writer waits").isTrue();

      statement.execute("COMMIT");
      writer.join();
      assertThat(log.read("J-0001")).hasSize(2);
    }
  }

  @Test
  void logThatIsDeletedMeanwhileAcknowledgesNothingMore() throws IOException {
    write(1);
    try (SqliteJobLog log = log()) {
      log.append("J-0001", 1, List.of(Events.noted("second")));
      Path aside = folder.resolve("aside");
      Files.move(file(), aside);

      String[] words = {file().toString(), "was deleted", "Put the file back"};
      assertRefused(() -> log.append("J-0001", 2, List.of(Events.noted("third"))), words);
      assertRefused(() -> log.read("J-0001"), words);
      assertThat(file()).doesNotExist();

      Files.move(aside, file());
      assertThat(log.append("J-0001", 2, List.of(Events.noted("third")))).isEqualTo(3);
    }
  }

  @Test
  void logThatIsReplacedMeanwhileAcknowledgesNothingMore() throws IOException {
    write(1);
    Path copy = folder.resolve("copy");
    Files.copy(file(), copy);
    try (SqliteJobLog log = log()) {
      log.append("J-0001", 1, List.of(Events.noted("second")));
      Files.move(copy, file(), StandardCopyOption.REPLACE_EXISTING);

      assertRefused(() -> log.append("J-0001", 2, List.of(Events.noted("third"))), "replaced");
    }
  }

  @Test
  void logWhoseSecondFileIsDeletedAcknowledgesNothingMore() throws IOException {
    write(1);
    try (SqliteJobLog log = log()) {
      log.append("J-0001", 1, List.of(Events.noted("second")));
      Files.delete(folder.resolve("jobs.db-wal"));

      assertRefused(
          () -> log.append("J-0001", 2, List.of(Events.noted("third"))), "was deleted", "-wal");
    }
  }

  @Test
  void entryThatWasWrittenIntoADeletedFileIsNotAcknowledged() {
    write(1);
    LogFile file = new LogFile(file(), Duration.ofMillis(50), Schema.ofThisProgram());
    List<Row> rows = List.of(new Row(2, "2026-03-29T01:00:00.000Z", "UTC", "noted", 1, "{}"));
    try (file) {
      assertRefused(
          () ->
              file.write(
                  tables -> {
                    tables.append(Tables.JOB, "J-0001", 1, rows, List.of());
                    return deleted(file());
                  }),
          "was deleted");
    }
  }

  private static boolean deleted(Path file) {
    try {
      return Files.deleteIfExists(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Test
  void folderInThePlaceOfTheFileIsRefused() throws IOException {
    Files.createDirectory(file());
    try (SqliteJobLog log = log()) {
      String[] words = {file().toString(), "is a folder", "name one in that folder"};
      assertRefused(log::streams, words);
      assertRefused(() -> log.append("J-0001", 0, List.of(Events.OPENED)), words);
    }
  }

  @Test
  void fileInThePlaceOfTheFolderIsRefused() throws IOException {
    Path notAFolder = Files.writeString(folder.resolve("plain"), "", UTF_8);
    try (SqliteJobLog log = log(notAFolder.resolve("jobs.db"))) {
      assertRefused(
          () -> log.append("J-0001", 0, List.of(Events.OPENED)),
          "folder",
          "plain",
          "cannot be made",
          "a file stands in its place");
    }
  }

  @Test
  void entriesOutliveTheProgramThatWroteThem() {
    write(3);
    try (SqliteJobLog log = log()) {
      assertThat(log.read("J-0001")).extracting(Logged::seq).containsExactly(1L, 2L, 3L);
    }
  }
}
