package org.jointwalk.cli;

import java.util.List;
import java.util.concurrent.Callable;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.job.Seen;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code job seen}. */
@Command(
    footer = {
      "",
      "Example:",
      "  jointwalk job seen --job J-0001 --side lower --position N014 --look dry"
    })
final class JobSeen implements Callable<Integer> {

  private final JobCommand parent;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private OnJob on = new OnJob();
  @Mixin private ByWhom by = new ByWhom();
  @Mixin private OnPosition at = new OnPosition();

  @Option(
      names = "--look",
      paramLabel = "LOOK",
      required = true,
      converter = Choice.OfLook.class,
      completionCandidates = Choice.OfLook.class,
      description = "What it looks like: ${COMPLETION-CANDIDATES}.")
  private Seen.Look look = Seen.Look.FINE;

  JobSeen(JobCommand parent) {
    this.parent = parent;
  }

  @Override
  public Integer call() throws InputException {
    Seen seen = new Seen(at.side(), at.position(), look);
    try (Jobs jobs = parent.jobs()) {
      Job job = jobs.findOpen(on.id());
      jobs.requirePads(job, List.of(seen.position()));
      jobs.addSeen(job, new Event.Looked(seen, by.initials()));
      parent.console(spec).line(job.id() + "  seen: " + Sentences.of(seen));
    }
    return ExitCode.GOOD.number();
  }
}
