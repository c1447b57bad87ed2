package org.jointwalk.joblog;

import java.nio.file.Path;
import java.time.Duration;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.files.EventText;
import org.jointwalk.files.UnreadableEventException;
import org.jointwalk.job.Event;
import org.jointwalk.job.FixtureRecord;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.Logged;

/**
 * The job log in an SQLite file. An append is one commit, and on the disk when it returns; a killed
 * program loses nothing that was acknowledged. The file and its folder are made by the first
 * writing, never by reading. Several programs may have one file open, and several threads may use
 * one object; of two that append to one stream after the same entry, one is refused.
 */
public final class SqliteJobLog implements JobLog {

  /** Long enough for another program's commit and checkpoint, short enough to wait for. */
  private static final Duration PATIENCE = Duration.ofSeconds(5);

  private final LogFile file;
  private final InstantSource clock;
  private final ZoneId zone;
  private final EventText reading = new EventText(SqliteJobLog::keepsNothing, this::text);

  /**
   * Opens nothing yet.
   *
   * @param file where the log is, or will be
   * @param clock that tells when an event was appended; kept to the millisecond
   * @param zone of the bench
   */
  public SqliteJobLog(Path file, InstantSource clock, ZoneId zone) {
    this(new LogFile(file, PATIENCE, Schema.ofThisProgram()), clock, zone);
  }

  SqliteJobLog(LogFile file, InstantSource clock, ZoneId zone) {
    this.file = file;
    this.clock = clock;
    this.zone = zone;
  }

  @Override
  public synchronized long append(String stream, long expectedSeq, List<Event> events) {
    Asked.toAppend(stream, expectedSeq, events);
    Map<String, Content> contents = new LinkedHashMap<>();
    EventText writing =
        new EventText(
            (kind, text) -> {
              Content content = Content.of(kind, text);
              contents.put(content.hash(), content);
              return content.hash();
            },
            this::text);
    String at = Moment.write(Moment.now(clock));
    List<Row> rows = new ArrayList<>(events.size());
    for (Event event : events) {
      rows.add(
          new Row(
              expectedSeq + rows.size() + 1,
              at,
              zone.getId(),
              writing.kind(event),
              writing.version(event),
              writing.write(event)));
    }
    return file.write(
        tables -> {
          tables.append(
              FixtureRecord.isStream(stream) ? Tables.FIXTURE : Tables.JOB,
              stream,
              expectedSeq,
              rows,
              contents.values());
          return expectedSeq + rows.size();
        });
  }

  @Override
  public synchronized List<Logged> read(String stream) {
    List<Row> rows = file.read(List.<Row>of(), tables -> tables.events(stream));
    List<Logged> events = new ArrayList<>(rows.size());
    for (Row row : rows) {
      try {
        events.add(
            new Logged(
                row.seq(),
                Moment.read(row.at()),
                ZoneId.of(row.zone()),
                reading.read(row.kind(), row.version(), row.body())));
      } catch (UnreadableEventException | java.time.DateTimeException e) {
        throw file.faults().unreadable(stream, row.seq(), e);
      }
    }
    return events;
  }

  @Override
  public synchronized List<String> streams() {
    return file.read(List.<String>of(), tables -> tables.streams(Tables.JOB));
  }

  @Override
  public synchronized List<String> fixtures() {
    return file.read(List.<String>of(), tables -> tables.streams(Tables.FIXTURE));
  }

  @Override
  public synchronized String keep(String kind, String text) {
    Content content = Content.of(kind, text);
    // Asked by reading first, so that a log that cannot be written serves what it has.
    if (text(content.hash()).isEmpty()) {
      file.write(
          tables -> {
            tables.keep(content);
            return content;
          });
    }
    return content.hash();
  }

  @Override
  public synchronized Optional<String> text(String hash) {
    return file.read(Optional.<String>empty(), tables -> tables.text(hash));
  }

  @Override
  public synchronized void close() {
    file.close();
  }

  private static String keepsNothing(String kind, String text) {
    throw new IllegalStateException("reading an event keeps no " + kind);
  }
}
