package org.jointwalk.cli;

import java.util.List;
import java.util.concurrent.Callable;
import org.jointwalk.job.Job;
import org.jointwalk.job.Logged;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code job list}. */
@Command(footer = {"", "Example:", "  jointwalk job list --all"})
final class JobList implements Callable<Integer> {

  /** What fits a screen; a long log takes its time to read. */
  private static final int LATEST = 20;

  private final JobCommand parent;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Option(names = "--all", description = "Every job, not only the latest " + LATEST + ".")
  private boolean all;

  @Option(names = "--json", description = "As JSON, for other programs.")
  private boolean json;

  JobList(JobCommand parent) {
    this.parent = parent;
  }

  @Override
  public Integer call() throws InputException {
    Console console = parent.console(spec);
    try (Jobs jobs = parent.jobs()) {
      List<String> ids = jobs.ids();
      int older = all ? 0 : Math.max(0, ids.size() - LATEST);
      List<Job> shown = ids.subList(older, ids.size()).stream().map(jobs::get).toList();
      if (json) {
        JobJson.list(console.writer(), jobs.file(), older, shown);
      } else {
        tell(console, jobs, older, shown);
      }
    }
    return ExitCode.GOOD.number();
  }

  private static void tell(Console console, Jobs jobs, int older, List<Job> shown) {
    if (shown.isEmpty()) {
      console.line("No job yet in " + jobs.file());
      return;
    }
    Columns columns = new Columns();
    for (Job job : shown) {
      Logged first = job.timeline().get(0);
      columns.row(
          job.id(),
          Times.day(first),
          job.closed() ? "closed" : "open",
          job.intake().device(),
          job.intake().serial(),
          job.intake().fails().isEmpty() ? "" : "fails " + String.join(", ", job.intake().fails()),
          job.closed() ? "" : Sentences.of(job.attachment()));
    }
    columns.lines().forEach(console::line);
    if (older > 0) {
      console.line(
          older + (older == 1 ? " older job" : " older jobs") + ": jointwalk job list --all");
    }
  }
}
