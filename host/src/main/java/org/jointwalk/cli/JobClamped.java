package org.jointwalk.cli;

import java.util.concurrent.Callable;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.job.WorksClamped;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The command {@code job clamped}. */
@Command(footer = {"", "Example:", "  jointwalk job clamped --job J-0001 yes"})
final class JobClamped implements Callable<Integer> {

  private final JobCommand parent;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private OnJob on = new OnJob();
  @Mixin private ByWhom by = new ByWhom();

  @Parameters(
      paramLabel = "WORKS",
      converter = Choice.OfWorks.class,
      completionCandidates = Choice.OfWorks.class,
      description = "${COMPLETION-CANDIDATES}")
  private WorksClamped works = WorksClamped.NOT_TRIED;

  JobClamped(JobCommand parent) {
    this.parent = parent;
  }

  @Override
  public Integer call() throws InputException {
    try (Jobs jobs = parent.jobs()) {
      Job job = jobs.findOpen(on.id());
      jobs.addSeen(job, new Event.Clamped(works, by.initials()));
      parent.console(spec).line(job.id() + "  works when clamped: " + Sentences.of(works));
    }
    return ExitCode.GOOD.number();
  }
}
