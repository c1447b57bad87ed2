package org.jointwalk.joblog;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;

/**
 * The layout of the file, by number. Script n brings layout n - 1 to layout n; the number stands in
 * the file's {@code user_version}. Immutable.
 */
final class Schema {

  private static final int APPLICATION_ID = 0x4A574C47;

  private final List<String> scripts;

  /** The layouts that this program knows. */
  static Schema ofThisProgram() {
    return new Schema(List.of(script("1.sql")));
  }

  /**
   * @param scripts in order, the first for an empty file
   */
  Schema(List<String> scripts) {
    this.scripts = List.copyOf(scripts);
  }

  /**
   * The layout of an open file: 0 for an empty one.
   *
   * @throws org.jointwalk.job.JobLogException when the file is something else or was written by a
   *     newer program
   */
  int layout(Connection connection, LogFaults faults) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet row =
            statement.executeQuery(
                "SELECT a.application_id, v.user_version, (SELECT count(*) FROM sqlite_schema)"
                    + " FROM pragma_application_id a, pragma_user_version v")) {
      row.next();
      int application = row.getInt(1);
      int version = row.getInt(2);
      int objects = row.getInt(3);
      if (application == 0 && version == 0 && objects == 0) {
        return 0;
      }
      if (application != APPLICATION_ID || version < 1) {
        throw faults.notALog();
      }
      if (version > scripts.size()) {
        throw faults.newer(version, scripts.size());
      }
      return version;
    }
  }

  /** Brings an open file to the last layout, in one transaction; does nothing when it is there. */
  void bringUpToDate(Connection connection, LogFaults faults) throws SQLException {
    if (layout(connection, faults) == scripts.size()) {
      return;
    }
    try (Statement statement = connection.createStatement()) {
      statement.execute("BEGIN IMMEDIATE");
      try {
        // Read again under the lock: another program may have done it meanwhile.
        for (int done = layout(connection, faults); done < scripts.size(); done++) {
          statement.executeUpdate(scripts.get(done));
          statement.executeUpdate("PRAGMA user_version = " + (done + 1));
        }
        statement.execute("COMMIT");
      } catch (SQLException | RuntimeException e) {
        Tables.rollBack(statement, e);
        throw e;
      }
    }
  }

  static String script(String name) {
    try (InputStream stream = Schema.class.getResourceAsStream(name)) {
      if (stream == null) {
        throw new IOException(name + " is missing from the program");
      }
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
