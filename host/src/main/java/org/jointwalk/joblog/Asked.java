package org.jointwalk.joblog;

import java.util.List;
import org.jointwalk.job.Event;
import org.jointwalk.job.FixtureEvent;
import org.jointwalk.job.FixtureRecord;
import org.jointwalk.job.JobLogException;

/** What no log takes, whoever keeps it. */
final class Asked {

  private Asked() {}

  /**
   * @throws IllegalArgumentException when the stream has no name, there is nothing to append, or
   *     entries of jobs and fixtures would be mixed
   */
  static void toAppend(String stream, long expectedSeq, List<Event> events) {
    if (stream.isBlank()) {
      throw new IllegalArgumentException("a stream needs a name");
    }
    if (expectedSeq < 0) {
      throw new IllegalArgumentException("entries are counted from 1, not " + expectedSeq);
    }
    if (events.isEmpty()) {
      throw new IllegalArgumentException("nothing to append to " + stream);
    }
    boolean ofFixture = FixtureRecord.isStream(stream);
    for (Event event : events) {
      if (event instanceof FixtureEvent != ofFixture) {
        throw new IllegalArgumentException(
            stream + " is no stream for a " + event.getClass().getSimpleName());
      }
    }
  }

  /** Says that a stream has grown, or shrunk, since it was looked at. */
  static JobLogException.Overtaken conflict(
      String stream, String log, long expectedSeq, long last) {
    return new JobLogException.Overtaken(
        "Somebody else wrote to "
            + stream
            + " in "
            + log
            + " meanwhile: it was seen with "
            + expectedSeq
            + (expectedSeq == 1 ? " entry" : " entries")
            + " and has "
            + last
            + ". Nothing was written. "
            + (FixtureRecord.isStream(stream)
                ? "Do it again; let only one program work with a fixture."
                : "Look at the job, then do it again; let only one program work on a job."));
  }
}
