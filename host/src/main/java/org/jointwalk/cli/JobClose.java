package org.jointwalk.cli;

import java.util.concurrent.Callable;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** The command {@code job close}. */
@Command(footer = {"", "Example:", "  jointwalk job close --job J-0001 --by AB"})
final class JobClose implements Callable<Integer> {

  private final JobCommand parent;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private OnJob on = new OnJob();
  @Mixin private ByWhom by = new ByWhom();

  JobClose(JobCommand parent) {
    this.parent = parent;
  }

  @Override
  public Integer call() throws InputException {
    try (Jobs jobs = parent.jobs()) {
      Job job = jobs.findOpen(on.id());
      jobs.add(job, new Event.Closed(by.initials()));
      parent.console(spec).line(job.id() + "  closed; the record stays in " + jobs.file());
    }
    return ExitCode.GOOD.number();
  }
}
