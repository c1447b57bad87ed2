package org.jointwalk.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import org.jointwalk.diagnose.Diagnose;
import org.jointwalk.job.Job;
import org.jointwalk.job.Verdict;
import org.jointwalk.report.VerdictJson;
import org.jointwalk.report.VerdictText;
import org.jointwalk.stack.PadMap;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code verdict}. */
@Command(
    name = "verdict",
    description = "Says what explains the complaint, what is wrong now, and what to do next.",
    footer = {"", "Example:", "  jointwalk verdict --job J-0001"})
final class VerdictCommand implements Callable<Integer> {

  private final Main main;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private LogOption log = new LogOption();
  @Mixin private OnJob job = new OnJob();

  @Option(names = "--json", description = "One JSON object on standard output, for scripts.")
  private boolean json;

  VerdictCommand(Main main) {
    this.main = main;
  }

  @Override
  public Integer call() throws InputException {
    try (Jobs jobs = log.jobs(main.surroundings())) {
      Job found = jobs.find(job.id());
      Kept kept = new Kept(jobs.log());
      PadMap map = kept.map(found);
      Verdict verdict = new Diagnose().verdict(map, kept.interposer(found), found);
      PrintWriter out = spec.commandLine().getOut();
      if (json) {
        out.println(VerdictJson.line(found.id(), verdict));
      } else {
        out.print(new VerdictText(main.look()).text(map, found, verdict));
      }
      out.flush();
      return (verdict.now().isEmpty() ? ExitCode.GOOD : ExitCode.FAULT_FOUND).number();
    }
  }
}
