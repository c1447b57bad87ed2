package org.jointwalk.cli;

import java.util.Optional;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.job.Logged;
import org.jointwalk.job.Verdict;

/** The verdicts of a job. Stateless. */
final class Verdicts {

  private Verdicts() {}

  /** The last one that was given, as it was shown. */
  static Optional<Verdict> last(Job job) {
    Optional<Verdict> last = Optional.empty();
    for (Logged entry : job.timeline()) {
      if (entry.event() instanceof Event.Judged judged) {
        last = Optional.of(judged.verdict());
      }
    }
    return last;
  }
}
