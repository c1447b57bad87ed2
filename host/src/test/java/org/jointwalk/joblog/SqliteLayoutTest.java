package org.jointwalk.joblog;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.StandardOpenOption;
import java.sql.SQLException;
import java.util.List;
import org.jointwalk.job.FixtureRecord;
import org.junit.jupiter.api.Test;

/** What a file has to be to be taken for a log, and what becomes of other files. */
class SqliteLayoutTest extends InAFolder {

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
  void logFromBeforeFixturesHadStreamsIsReadOnAndTakesOne() throws SQLException {
    write(2);
    assertThat(query("SELECT kind FROM stream")).containsExactly("job");

    try (SqliteJobLog log = log()) {
      log.append(FixtureRecord.stream("marsh-photo-1"), 0, Events.OF_A_FIXTURE);

      assertThat(log.read("J-0001")).hasSize(2);
      assertThat(log.streams()).containsExactly("J-0001");
      assertThat(log.fixtures()).containsExactly("fixture marsh-photo-1");
    }
    assertThat(query("SELECT kind || ': ' || name FROM stream ORDER BY id"))
        .containsExactly("job: J-0001", "fixture: fixture marsh-photo-1");
    assertThat(query("PRAGMA user_version")).containsExactly("1");
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
}
