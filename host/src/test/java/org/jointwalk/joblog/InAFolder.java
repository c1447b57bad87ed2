package org.jointwalk.joblog;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
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
import org.junit.jupiter.api.io.TempDir;

/** A folder with a job log in it, and ways to look at it without jointwalk. */
abstract class InAFolder {

  @TempDir Path folder = Path.of("");

  Path file() {
    return folder.resolve("jobs.db");
  }

  SqliteJobLog log() {
    return log(file());
  }

  static SqliteJobLog log(Path file) {
    return log(file, Schema.ofThisProgram());
  }

  /** A log that does not wait long for others. */
  static SqliteJobLog log(Path file, Schema schema) {
    return new SqliteJobLog(
        new LogFile(file, Duration.ofMillis(50), schema),
        new JobLogContract.SteppingClock(),
        JobLogContract.ZONE);
  }

  void write(int entries) {
    try (SqliteJobLog log = log()) {
      log.append("J-0001", 0, List.of(Events.OPENED));
      for (int seq = 1; seq < entries; seq++) {
        log.append("J-0001", seq, List.of(Events.noted("entry " + (seq + 1))));
      }
    }
  }

  List<String> query(String sql) throws SQLException {
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

  void execute(String... statements) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file());
        Statement statement = connection.createStatement()) {
      for (String sql : statements) {
        statement.execute(sql);
      }
    }
  }

  List<String> names() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(f -> f.getFileName().toString()).sorted().toList();
    }
  }

  static void assertRefused(ThrowingCallable use, String... words) {
    assertThatThrownBy(use).isInstanceOf(JobLogException.class).hasMessageContainingAll(words);
  }
}
