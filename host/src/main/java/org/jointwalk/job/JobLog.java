package org.jointwalk.job;

import java.util.List;
import java.util.Optional;

/**
 * What remembers jobs, and the fixtures that they were measured with. Safe for use by one writer
 * per stream; a second writer is refused.
 */
public interface JobLog extends AutoCloseable {

  /**
   * Appends events to a stream, all or none, and returns only when they are durable.
   *
   * @param stream id of the job, or {@link FixtureRecord#stream} of a fixture; a stream that begins
   *     with a {@link FixtureEvent} is a fixture's and takes no other events, nor does a job's take
   *     these
   * @param expectedSeq number of the last event the caller has seen, 0 for a new stream
   * @param events what happened, in order
   * @return number of the last event appended
   * @throws JobLogException.Overtaken when somebody else appended meanwhile
   * @throws JobLogException when nothing can be written
   */
  long append(String stream, long expectedSeq, List<Event> events);

  /** All events of a stream in order; empty when there is no such stream. */
  List<Logged> read(String stream);

  /** Ids of all jobs, oldest first. */
  List<String> streams();

  /** Streams of all fixtures, oldest first. */
  List<String> fixtures();

  /**
   * Keeps a text under the hash of its UTF-8 bytes; the same text is kept once.
   *
   * @param kind what it is: such as {@code pads} or {@code fixture}
   * @return SHA-256 in lower-case hexadecimal
   */
  String keep(String kind, String text);

  /** The text that is kept under a hash. */
  Optional<String> text(String hash);

  @Override
  void close();
}
