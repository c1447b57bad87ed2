package org.jointwalk.joblog;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.jointwalk.job.JobLogException;
import org.jointwalk.job.Logged;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What only a log in a file can suffer. */
class SqliteFileTest {

  @TempDir Path folder = Path.of("");

  private Path file() {
    return folder.resolve("jobs.db");
  }

  private SqliteJobLog log() {
    return log(file());
  }

  private static SqliteJobLog log(Path file) {
    return log(file, Schema.ofThisProgram());
  }

  /** A log that does not wait long for others. */
  private static SqliteJobLog log(Path file, Schema schema) {
    return new SqliteJobLog(
        new LogFile(file, Duration.ofMillis(50), schema),
        new JobLogContract.SteppingClock(),
        JobLogContract.ZONE);
  }

  private void write(int entries) {
    try (SqliteJobLog log = log()) {
      log.append("J-0001", 0, List.of(Events.OPENED));
      for (int seq = 1; seq < entries; seq++) {
        log.append("J-0001", seq, List.of(Events.noted("entry " + (seq + 1))));
      }
    }
  }

  private List<String> query(String sql) throws SQLException {
    List<String> rows = new ArrayList<>();
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file());
        Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(sql)) {
      while (row.next()) {
        rows.add(row.getString(1));
      }
    }
    return rows;
  }

  private void execute(String... statements) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file());
        Statement statement = connection.createStatement()) {
      for (String sql : statements) {
        statement.execute(sql);
      }
    }
  }

  private List<String> names() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(f -> f.getFileName().toString()).sorted().toList();
    }
  }

  private static void assertRefused(ThrowingCallable use, String... words) {
    assertThatThrownBy(use).isInstanceOf(JobLogException.class).hasMessageContainingAll(words);
  }

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
  void fileHoldsTheThreeTablesAndNothingElse() throws SQLException {
    write(1);

    assertThat(query("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name"))
        .containsExactly("content", "event", "stream");
    assertThat(query("SELECT group_concat(name, ' ') FROM pragma_table_info('content')"))
        .containsExactly("hash kind text");
    assertThat(query("SELECT group_concat(name, ' ') FROM pragma_table_info('stream')"))
        .containsExactly("id kind name");
    assertThat(query("SELECT group_concat(name, ' ') FROM pragma_table_info('event')"))
        .containsExactly("stream seq at_utc zone kind version body");
    assertThat(query("SELECT at_utc || ' ' || zone || ' ' || kind FROM event"))
        .containsExactly("2026-03-29T00:59:59.999Z Europe/Lisbon opened");
    assertThat(query("PRAGMA journal_mode")).containsExactly("wal");
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
  void logOfANewerProgramIsRefusedAndNotTouched() throws SQLException, IOException {
    write(2);
    execute("CREATE TABLE later (x)", "PRAGMA user_version = 7", "PRAGMA wal_checkpoint(TRUNCATE)");
    byte[] before = Files.readAllBytes(file());

    try (SqliteJobLog log = log()) {
      String[] words = {file().toString(), "newer version", "layout 7", "was not touched"};
      assertRefused(log::streams, words);
      assertRefused(() -> log.read("J-0001"), words);
      assertRefused(() -> log.keep("pads", "{}"), words);
      assertRefused(() -> log.append("J-0001", 2, List.of(Events.noted("third"))), words);
    }
    assertThat(Files.readAllBytes(file())).isEqualTo(before);
    assertThat(names()).containsExactly("jobs.db");
  }

  @Test
  void entryOfANewerProgramIsNamedAndTheOthersStay() throws SQLException {
    write(2);
    execute("UPDATE event SET kind = 'thermal-image', version = 3 WHERE seq = 2");

    try (SqliteJobLog log = log()) {
      assertRefused(
          () -> log.read("J-0001"),
          "Entry 2 of J-0001",
          file().toString(),
          "thermal-image",
          "newer");
    }
    assertThat(query("SELECT version FROM event ORDER BY seq")).containsExactly("1", "3");
  }

  @Test
  void olderLayoutIsBroughtUpToDateAndKeepsItsEntries() throws SQLException {
    write(2);
    String first = Schema.script("1.sql");
    Schema next = new Schema(List.of(first, "CREATE INDEX by_kind ON event (kind)"));

    try (SqliteJobLog log = log(file(), next)) {
      assertThat(log.read("J-0001")).hasSize(2);
      assertThat(log.append("J-0001", 2, List.of(Events.noted("third")))).isEqualTo(3);
    }

    assertThat(query("PRAGMA user_version")).containsExactly("2");
    assertThat(query("SELECT name FROM sqlite_schema WHERE name = 'by_kind'")).hasSize(1);
    try (SqliteJobLog log = log()) {
      assertRefused(log::streams, "layout 2", "up to 1");
    }
  }

  @Test
  void layoutThatFailsHalfWayLeavesTheOldOne() throws SQLException {
    write(1);
    Schema broken =
        new Schema(
            List.of(Schema.script("1.sql"), "CREATE TABLE half (x); CREATE TABLE event (y);"));

    try (SqliteJobLog log = log(file(), broken)) {
      assertRefused(() -> log.read("J-0001"), file().toString());
    }
    assertThat(query("PRAGMA user_version")).containsExactly("1");
    assertThat(query("SELECT name FROM sqlite_schema WHERE name = 'half'")).isEmpty();
  }

  @Test
  void fileOfAnotherKindIsRefusedAndNotTouched() throws IOException {
    for (String text : List.of("hello", "hello ".repeat(5_000))) {
      Files.writeString(file(), text, UTF_8);
      try (SqliteJobLog log = log()) {
        String[] words = {file().toString(), "is not a job log", "Name another file"};
        assertRefused(log::streams, words);
        assertRefused(() -> log.append("J-0001", 0, List.of(Events.OPENED)), words);
      }
      assertThat(Files.readString(file(), UTF_8)).isEqualTo(text);
      assertThat(names()).containsExactly("jobs.db");
    }
  }

  @Test
  void databaseOfAnotherProgramIsRefusedAndNotTouched() throws SQLException, IOException {
    execute("CREATE TABLE birds (ring TEXT)");
    byte[] before = Files.readAllBytes(file());

    try (SqliteJobLog log = log()) {
      assertRefused(log::streams, "is not a job log");
      assertRefused(() -> log.append("J-0001", 0, List.of(Events.OPENED)), "is not a job log");
    }
    assertThat(Files.readAllBytes(file())).isEqualTo(before);
  }

  @Test
  void emptyFileIsALogWithNothingInIt() throws IOException {
    Files.createFile(file());
    try (SqliteJobLog log = log()) {
      assertThat(log.streams()).isEmpty();
      assertThat(file()).hasSize(0);
      assertThat(log.append("J-0001", 0, List.of(Events.OPENED))).isEqualTo(1);
    }
  }

  @Test
  void damagedFileIsNamedWithWhatToDo() throws IOException {
    write(200);
    try (FileChannel channel = FileChannel.open(file(), StandardOpenOption.WRITE)) {
      ByteBuffer rubbish = ByteBuffer.allocate(4096);
      while (rubbish.hasRemaining()) {
        rubbish.put((byte) 0xA5);
      }
      for (long page = 5; page * 4096 < channel.size(); page++) {
        channel.write(rubbish.rewind(), page * 4096);
      }
    }

    try (SqliteJobLog log = log()) {
      assertRefused(
          () -> log.read("J-0001"),
          file().toString(),
          "is damaged",
          "copy it to a safe place",
          ".recover");
    }
  }

  @Test
  void logThatIsCutOffIsNamedAsDamaged() throws IOException {
    write(200);
    try (FileChannel channel = FileChannel.open(file(), StandardOpenOption.WRITE)) {
      channel.truncate(3 * 4096);
    }

    try (SqliteJobLog log = log()) {
      assertRefused(() -> log.read("J-0001"), file().toString(), "is damaged");
    }
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
                    tables.append("J-0001", 1, rows, List.of());
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
