package org.jointwalk.joblog;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.util.Optional;
import org.jointwalk.job.JobLogException;
import org.jspecify.annotations.Nullable;
import org.sqlite.JDBC;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteOpenMode;

/**
 * When the file is opened, and whether it is still the one that was opened. Nothing is opened
 * before the first use, and reading makes no file. After a failure the file is closed, and the next
 * use opens it anew. Not safe for use by several threads.
 */
final class LogFile implements AutoCloseable {

  private final Path file;
  private final Path walFile;
  private final Duration patience;
  private final Schema schema;
  private final LogFaults faults;

  private @Nullable Tables tables;

  /** What the system knows the open file by; empty where it has no such thing. */
  private Optional<Object> identity = Optional.empty();

  /** Whether the open file is known to write ahead. */
  private boolean writesAhead;

  /** Whether the file was opened as one that nobody can change. */
  private boolean frozen;

  /**
   * @param file the log
   * @param patience how long to wait for another program
   * @param schema the layouts to know
   */
  LogFile(Path file, Duration patience, Schema schema) {
    this.file = file.toAbsolutePath();
    this.walFile = Path.of(this.file + "-wal");
    this.patience = patience;
    this.schema = schema;
    this.faults = new LogFaults(this.file, patience);
  }

  LogFaults faults() {
    return faults;
  }

  /** Something done with the open tables. */
  @FunctionalInterface
  interface Work<T> {

    T with(Tables tables) throws SQLException;
  }

  /** Reads; answers {@code whenEmpty} when there is no file, or nothing in it. */
  <T> T read(T whenEmpty, Work<T> work) {
    requireFile();
    try {
      Optional<Tables> open = tables();
      return open.isPresent() ? work.with(open.get()) : whenEmpty;
    } catch (SQLException e) {
      drop();
      throw faults.of(e);
    } finally {
      if (frozen) {
        drop();
      }
    }
  }

  /** Writes; when this returns, the work is on the disk, in the file of this name. */
  <T> T write(Work<T> work) {
    requireFile();
    requireWritable();
    try {
      Tables open = writableTables();
      T answer = work.with(open);
      requireSameFile();
      // While the file is open, its latest entries stand in the second file only.
      if (Files.notExists(walFile)) {
        throw faults.deleted();
      }
      return answer;
    } catch (SQLException e) {
      drop();
      throw faults.of(e);
    }
  }

  private Optional<Tables> tables() throws SQLException {
    if (tables != null) {
      requireSameFile();
    } else if (!Files.notExists(file)) {
      open(false);
    }
    return Optional.ofNullable(tables);
  }

  private Tables writableTables() throws SQLException {
    Tables open = tables().isPresent() ? tables : open(true);
    if (open == null) {
      throw new IllegalStateException("a file that is opened for writing has tables");
    }
    if (!writesAhead) {
      writesAhead = open.writeAhead();
      if (!writesAhead) {
        throw faults.noWriteAhead();
      }
    }
    return open;
  }

  /** Opens the file; leaves it closed when it is empty and shall not be filled. */
  private @Nullable Tables open(boolean fill) throws SQLException {
    frozen = false;
    Connection connection = connect(fill);
    try {
      if (schema.layout(connection, faults) > 0 || fill) {
        schema.bringUpToDate(connection, faults);
        tables = new Tables(connection, faults);
        identity = identity();
        writesAhead = false;
      } else {
        connection.close();
      }
      return tables;
    } catch (SQLException | RuntimeException e) {
      try {
        connection.close();
      } catch (SQLException second) {
        e.addSuppressed(second);
      }
      throw e;
    }
  }

  private Connection connect(boolean create) throws SQLException {
    SQLiteConfig config = new SQLiteConfig();
    config.setBusyTimeout(Math.toIntExact(patience.toMillis()));
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    config.enforceForeignKeys(true);
    if (!create) {
      config.resetOpenMode(SQLiteOpenMode.CREATE);
    }
    // A URI, because a plain name may hold what SQLite or its driver would take for parameters.
    String url = "jdbc:sqlite:" + file.toUri();
    if (!create && !Files.isWritable(file.getParent()) && Files.notExists(walFile)) {
      // SQLite wants to put its shared memory beside the file; nobody can write, so none is needed.
      frozen = true;
      url += "?immutable=1";
    }
    return JDBC.createConnection(url, config.toProperties());
  }

  private void requireFile() {
    if (Files.isDirectory(file)) {
      throw faults.folderInstead();
    }
  }

  private void requireWritable() {
    try {
      Files.createDirectories(file.getParent());
    } catch (IOException e) {
      throw faults.noFolder(e);
    }
    if (!Files.isWritable(file.getParent()) || (Files.exists(file) && !Files.isWritable(file))) {
      throw faults.readOnly();
    }
  }

  private void requireSameFile() {
    if (!identity().equals(identity) || Files.notExists(file)) {
      throw faults.deleted();
    }
  }

  private Optional<Object> identity() {
    try {
      return Optional.ofNullable(Files.readAttributes(file, BasicFileAttributes.class).fileKey());
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  /** Closes the file after a failure, which is what will be told. */
  private void drop() {
    try {
      close();
    } catch (JobLogException e) {
      // The failure that led here says more, and the file is let go of all the same.
    }
  }

  /** Closes the file; the last one to do so tidies its second file away. */
  @Override
  public void close() {
    Tables open = tables;
    tables = null;
    if (open != null) {
      try {
        open.close();
      } catch (SQLException e) {
        throw faults.of(e);
      }
    }
  }
}
