package org.jointwalk.joblog;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.job.Event;
import org.jointwalk.job.FixtureRecord;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.Logged;

/**
 * A job log that ends with the program: for a demonstration without a trace, and for tests. Several
 * threads may use it.
 */
public final class MemoryJobLog implements JobLog {

  private final InstantSource clock;
  private final ZoneId zone;
  private final Map<String, List<Logged>> streams = new LinkedHashMap<>();
  private final Map<String, Content> contents = new LinkedHashMap<>();

  /**
   * @param clock that tells when an event was appended; kept to the millisecond
   * @param zone of the bench
   */
  public MemoryJobLog(InstantSource clock, ZoneId zone) {
    this.clock = clock;
    this.zone = zone;
  }

  @Override
  public synchronized long append(String stream, long expectedSeq, List<Event> events) {
    Asked.toAppend(stream, expectedSeq, events);
    List<Logged> entries = streams.getOrDefault(stream, List.of());
    if (entries.size() != expectedSeq) {
      throw Asked.conflict(stream, "memory", expectedSeq, entries.size());
    }
    Instant at = Moment.now(clock);
    List<Logged> growing = streams.computeIfAbsent(stream, name -> new ArrayList<>());
    for (Event event : events) {
      growing.add(new Logged(growing.size() + 1L, at, zone, event));
    }
    return growing.size();
  }

  @Override
  public synchronized List<Logged> read(String stream) {
    return List.copyOf(streams.getOrDefault(stream, List.of()));
  }

  @Override
  public synchronized List<String> streams() {
    return streams.keySet().stream().filter(name -> !FixtureRecord.isStream(name)).toList();
  }

  @Override
  public synchronized List<String> fixtures() {
    return streams.keySet().stream().filter(FixtureRecord::isStream).toList();
  }

  @Override
  public synchronized String keep(String kind, String text) {
    Content content = Content.of(kind, text);
    contents.putIfAbsent(content.hash(), content);
    return content.hash();
  }

  @Override
  public synchronized Optional<String> text(String hash) {
    return Optional.ofNullable(contents.get(hash)).map(Content::text);
  }

  /** Forgets nothing; what was appended can still be read. */
  @Override
  public void close() {
    // There is nothing to let go of.
  }
}
