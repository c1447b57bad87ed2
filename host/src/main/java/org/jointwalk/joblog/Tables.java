package org.jointwalk.joblog;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;

/**
 * An open log file with every statement prepared once. Writing statements end with a commit that is
 * on the disk. Not safe for use by several threads.
 */
final class Tables implements AutoCloseable {

  /** Kind of a stream that tells of a job. */
  static final String JOB = "job";

  /** Kind of a stream that tells of a fixture. */
  static final String FIXTURE = "fixture";

  private final Connection connection;
  private final LogFaults faults;
  private final Statement plain;
  private final PreparedStatement begin;
  private final PreparedStatement commit;
  private final PreparedStatement findStream;
  private final PreparedStatement addStream;
  private final PreparedStatement addEvent;
  private final PreparedStatement addContent;
  private final PreparedStatement events;
  private final PreparedStatement streams;
  private final PreparedStatement text;

  /**
   * @param connection to a file of the last layout; closed with this object, or when this fails
   */
  Tables(Connection connection, LogFaults faults) throws SQLException {
    this.connection = connection;
    this.faults = faults;
    plain = connection.createStatement();
    begin = connection.prepareStatement("BEGIN IMMEDIATE");
    commit = connection.prepareStatement("COMMIT");
    findStream =
        connection.prepareStatement(
            "SELECT id, (SELECT coalesce(max(seq), 0) FROM event WHERE stream = id)"
                + " FROM stream WHERE name = ?");
    addStream =
        connection.prepareStatement("INSERT INTO stream (kind, name) VALUES (?, ?) RETURNING id");
    addEvent =
        connection.prepareStatement(
            "INSERT INTO event (stream, seq, at_utc, zone, kind, version, body)"
                + " VALUES (?, ?, ?, ?, ?, ?, ?)");
    addContent =
        connection.prepareStatement(
            "INSERT INTO content (hash, kind, text) VALUES (?, ?, ?) ON CONFLICT DO NOTHING");
    events =
        connection.prepareStatement(
            "SELECT seq, at_utc, zone, kind, version, body FROM event"
                + " WHERE stream = (SELECT id FROM stream WHERE name = ?) ORDER BY seq");
    streams = connection.prepareStatement("SELECT name FROM stream WHERE kind = ? ORDER BY id");
    text = connection.prepareStatement("SELECT text FROM content WHERE hash = ?");
  }

  /**
   * Appends rows and the texts that they refer to, all or none.
   *
   * @param kind of the stream, for a new one
   */
  void append(
      String kind, String stream, long expectedSeq, List<Row> rows, Collection<Content> contents)
      throws SQLException {
    begin.execute();
    try {
      long id = streamAt(kind, stream, expectedSeq);
      for (Content content : contents) {
        insert(content);
      }
      for (Row row : rows) {
        addEvent.setLong(1, id);
        addEvent.setLong(2, row.seq());
        addEvent.setString(3, row.at());
        addEvent.setString(4, row.zone());
        addEvent.setString(5, row.kind());
        addEvent.setInt(6, row.version());
        addEvent.setString(7, row.body());
        addEvent.executeUpdate();
      }
      commit.execute();
    } catch (SQLException | RuntimeException e) {
      rollBack(plain, e);
      throw e;
    }
  }

  /** The row of a stream whose last entry is the expected one; made when it is to be new. */
  private long streamAt(String kind, String stream, long expectedSeq) throws SQLException {
    findStream.setString(1, stream);
    try (ResultSet found = findStream.executeQuery()) {
      boolean known = found.next();
      long last = known ? found.getLong(2) : 0;
      if (last != expectedSeq) {
        throw faults.conflict(stream, expectedSeq, last);
      }
      if (known) {
        return found.getLong(1);
      }
    }
    addStream.setString(1, kind);
    addStream.setString(2, stream);
    try (ResultSet added = addStream.executeQuery()) {
      added.next();
      return added.getLong(1);
    }
  }

  /** Keeps a text; does nothing when it is there. */
  void keep(Content content) throws SQLException {
    if (text(content.hash()).isEmpty()) {
      insert(content);
    }
  }

  private void insert(Content content) throws SQLException {
    addContent.setString(1, content.hash());
    addContent.setString(2, content.kind());
    addContent.setString(3, content.text());
    addContent.executeUpdate();
  }

  List<Row> events(String stream) throws SQLException {
    events.setString(1, stream);
    List<Row> all = new ArrayList<>();
    try (ResultSet row = events.executeQuery()) {
      while (row.next()) {
        all.add(
            new Row(
                row.getLong(1),
                row.getString(2),
                row.getString(3),
                row.getString(4),
                row.getInt(5),
                row.getString(6)));
      }
    }
    return all;
  }

  /** Names of all streams of a kind, oldest first. */
  List<String> streams(String kind) throws SQLException {
    streams.setString(1, kind);
    List<String> all = new ArrayList<>();
    try (ResultSet row = streams.executeQuery()) {
      while (row.next()) {
        all.add(row.getString(1));
      }
    }
    return all;
  }

  Optional<String> text(String hash) throws SQLException {
    text.setString(1, hash);
    try (ResultSet row = text.executeQuery()) {
      return row.next() ? Optional.of(row.getString(1)) : Optional.empty();
    }
  }

  /** Turns on the write-ahead log; false when the place of the file cannot have one. */
  boolean writeAhead() throws SQLException {
    return writeAhead(plain);
  }

  static boolean writeAhead(Statement statement) throws SQLException {
    try (ResultSet mode = statement.executeQuery("PRAGMA journal_mode = WAL")) {
      return mode.next() && mode.getString(1).equals("wal");
    }
  }

  /** Ends a transaction that failed; what SQLite has ended by itself is no second failure. */
  static void rollBack(Statement statement, Exception failure) {
    try {
      statement.execute("ROLLBACK");
    } catch (SQLException e) {
      failure.addSuppressed(e);
    }
  }

  /** Closes the connection, and with it every statement. */
  @Override
  public void close() throws SQLException {
    connection.close();
  }
}
