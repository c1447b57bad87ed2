package org.jointwalk.pass;

import java.util.List;
import java.util.Optional;
import org.jointwalk.job.Event;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.JobLogException;
import org.jointwalk.job.Logged;

/** A log that takes no more than so many events. */
final class FullLog implements JobLog {

  private final JobLog log;
  private final int most;

  FullLog(JobLog log, int most) {
    this.log = log;
    this.most = most;
  }

  @Override
  public long append(String stream, long expectedSeq, List<Event> events) {
    if (log.read(stream).size() + events.size() > most) {
      throw new JobLogException("the disk is full");
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
