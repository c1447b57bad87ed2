package org.jointwalk.job;

import java.util.List;
import java.util.Optional;

/** What remembers jobs. Safe for use by one writer per stream; a second writer is refused. */
public interface JobLog extends AutoCloseable {

  /**
   * Appends events to a stream, all or none, and returns only when they are durable.
   *
   * @param stream id of the job
   * @param expectedSeq number of the last event the caller has seen, 0 for a new stream
   * @param events what happened, in order
   * @return number of the last event appended
   * @throws JobLogException.Overtaken when somebody else appended meanwhile
   * @throws JobLogException when nothing can be written
   */
  long append(String stream, long expectedSeq, List<Event> events);

  /** All events of a stream in order; empty when there is no such stream. */
  List<Logged> read(String stream);

  /** Ids of all streams, oldest first. */
  List<String> streams();

  /**
   * Keeps a text under the hash of its UTF-8 bytes; the same text is kept once.
   *
   * @param kind what it is: {@code pads} or {@code fixture}
   * @return SHA-256 in lower-case hexadecimal
   */
  String keep(String kind, String text);

  /** The text that is kept under a hash. */
  Optional<String> text(String hash);

  @Override
  void close();
}
