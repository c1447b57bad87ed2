package org.jointwalk.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Job;
import org.jointwalk.job.PassRecord;
import org.jointwalk.pass.Replay;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** The command {@code job replay}. */
@Command(
    name = "replay",
    description =
        "Grades every pass of a job again from its readings, with the rules of this version, and"
            + " shows what differs from what was sealed.",
    footer = {"", "Example:", "  jointwalk job replay --job J-0001"})
final class JobReplay implements Callable<Integer> {

  private final JobCommand job;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private OnJob on = new OnJob();

  JobReplay(JobCommand job) {
    this.job = job;
  }

  @Override
  public Integer call() throws InputException {
    try (Jobs jobs = job.jobs()) {
      Job found = jobs.find(on.id());
      Kept kept = new Kept(jobs.log());
      Console console = job.console(spec);
      int differing = 0;
      for (PassRecord pass : found.passes()) {
        List<String> differences = differences(found, pass, kept);
        differing += differences.isEmpty() ? 0 : 1;
        console.title(
            "Pass "
                + pass.begun().pass()
                + ", "
                + pass.begun().setUp()
                + ": "
                + (pass.open()
                    ? "never finished, nothing was sealed"
                    : differences.isEmpty()
                        ? "the same as sealed, " + pass.measurements().size() + " readings"
                        : differences.size() + " differences"));
        differences.forEach(d -> console.line("  " + d));
      }
      return (differing == 0 ? ExitCode.GOOD : ExitCode.UNDECIDED).number();
    }
  }

  private static List<String> differences(Job found, PassRecord pass, Kept kept) {
    List<String> differences = new ArrayList<>();
    pass.graded()
        .ifPresent(
            graded -> {
              Findings now =
                  Replay.findings(
                      found, pass, kept.assembly(pass), kept.fixtureMap(pass.begun()).contacts());
              differences.addAll(Replay.differences(graded.findings(), now));
            });
    return differences;
  }
}
