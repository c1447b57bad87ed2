package org.jointwalk.pass;

import java.util.List;
import org.jointwalk.job.Event;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.JobLogException;
import org.jointwalk.job.Logged;

/**
 * The end of a job's stream, to which what is measured is appended while others may add what they
 * saw or noted. One thread.
 */
final class Writing {

  private final JobLog log;
  private final String stream;
  private long seq;
  private int commits;

  /**
   * @param seq number of the last event that is known
   */
  Writing(JobLog log, String stream, long seq) {
    this.log = log;
    this.stream = stream;
    this.seq = seq;
  }

  /** How often something became durable. */
  int commits() {
    return commits;
  }

  void append(Event event) {
    while (true) {
      try {
        seq = log.append(stream, seq, List.of(event));
        commits++;
        return;
      } catch (JobLogException.Overtaken e) {
        seq = pastObservations(e);
      }
    }
  }

  /**
   * The end of the log, when all that others added is what somebody saw or noted meanwhile.
   * Anything else means that the parts have changed, or that somebody else is measuring.
   */
  private long pastObservations(JobLogException.Overtaken overtaken) {
    long end = seq;
    for (Logged logged : log.read(stream)) {
      if (logged.seq() > seq) {
        if (!isObservation(logged.event())) {
          throw overtaken;
        }
        end = logged.seq();
      }
    }
    if (end == seq) {
      throw overtaken;
    }
    return end;
  }

  private static boolean isObservation(Event event) {
    return event instanceof Event.Looked
        || event instanceof Event.Clamped
        || event instanceof Event.Noted;
  }
}
