package org.jointwalk.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The command {@code job note}. */
@Command(footer = {"", "Example:", "  jointwalk job note --job J-0001 \"corner N001 was loose\""})
final class JobNote implements Callable<Integer> {

  private final JobCommand parent;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private OnJob on = new OnJob();
  @Mixin private ByWhom by = new ByWhom();

  @Parameters(paramLabel = "TEXT", arity = "1..*", description = "The remark.")
  private List<String> words = new ArrayList<>();

  JobNote(JobCommand parent) {
    this.parent = parent;
  }

  @Override
  public Integer call() throws InputException {
    String text = String.join(" ", words).strip();
    if (text.isEmpty()) {
      throw new InputException("A note needs words.");
    }
    try (Jobs jobs = parent.jobs()) {
      Job job = jobs.find(on.id());
      jobs.addSeen(job, new Event.Noted(text, by.initials()));
      parent.console(spec).line(job.id() + "  noted: " + text);
    }
    return ExitCode.GOOD.number();
  }
}
