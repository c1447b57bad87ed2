package org.jointwalk.cli;

import java.util.List;
import java.util.Optional;
import org.jointwalk.job.Event;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.Logged;

/** A log in which something happens just before the first append. */
final class BetweenLog implements JobLog {

  private final JobLog log;
  private final Runnable other;
  private boolean happened;

  BetweenLog(JobLog log, Runnable other) {
    this.log = log;
    this.other = other;
  }

  @Override
  public long append(String stream, long expectedSeq, List<Event> events) {
    if (!happened) {
      happened = true;
      other.run();
    }
    return log.append(stream, expectedSeq, events);
  }

  @Override
  public List<Logged> read(String stream) {
    return log.read(stream);
  }

  @Override
  public List<String> streams() {
    return log.streams();
  }

  @Override
  public List<String> fixtures() {
    return log.fixtures();
  }

  @Override
  public String keep(String kind, String text) {
    return log.keep(kind, text);
  }

  @Override
  public Optional<String> text(String hash) {
    return log.text(hash);
  }

  @Override
  public void close() {
    log.close();
  }
}
