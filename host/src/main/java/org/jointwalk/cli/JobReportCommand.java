package org.jointwalk.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jointwalk.diagnose.Diagnose;
import org.jointwalk.files.RecordHash;
import org.jointwalk.job.Job;
import org.jointwalk.job.Verdict;
import org.jointwalk.report.JobReport;
import org.jointwalk.report.PdfPrinter;
import org.jointwalk.report.Shop;
import org.jointwalk.stack.PadMap;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code job report}. */
@Command(
    footer = {
      "",
      "The page needs nothing from outside. Its last line has the SHA-256 of the job's record, so that",
      "a page can be matched with the log it was made from.",
      "",
      "Example:",
      "  jointwalk job report --job J-0001 --html J-0001.html --pdf J-0001.pdf",
      "  jointwalk job report --job J-0001 --for-owner --pdf for-the-owner.pdf"
    })
final class JobReportCommand implements Callable<Integer> {

  private final JobCommand parent;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private OnJob on = new OnJob();
  @Mixin private ShopOption shop = new ShopOption();

  @Option(names = "--html", paramLabel = "FILE", description = "Write the page as HTML here.")
  private @Nullable Path html;

  @Option(names = "--pdf", paramLabel = "FILE", description = "Print the page to PDF here.")
  private @Nullable Path pdf;

  @Option(
      names = "--for-owner",
      description =
          "Half a page in plain words for the owner of the device, without percentages or promises.")
  private boolean forOwner;

  @Option(names = "--force", description = "Replaces a file that is there already.")
  private boolean force;

  JobReportCommand(JobCommand parent) {
    this.parent = parent;
  }

  @Override
  public Integer call() throws InputException, IOException {
    if (html == null && pdf == null) {
      throw new InputException("Say where the page shall go: --html FILE, --pdf FILE, or both.");
    }
    List<NewFile> targets = new ArrayList<>();
    for (Path path : paths()) {
      NewFile target = new NewFile(path, force);
      target.requirePossible();
      targets.add(target);
    }
    try (Jobs jobs = parent.jobs()) {
      Shop who = shop.shop(jobs.file());
      Job job = jobs.find(on.id());
      String page = page(jobs, job, who);
      Console console = parent.console(spec);
      for (NewFile target : targets) {
        if (pdf != null && target.path().equals(pdf)) {
          target.write(PdfPrinter.print(page));
        } else {
          target.write(page);
        }
        console.line(
            job.id()
                + "  "
                + (forOwner ? "page for the owner" : "report")
                + " in "
                + target.path());
      }
    }
    return ExitCode.GOOD.number();
  }

  private List<Path> paths() throws InputException {
    List<Path> paths = new ArrayList<>();
    Optional.ofNullable(html).ifPresent(paths::add);
    Optional.ofNullable(pdf).ifPresent(paths::add);
    if (paths.size() == 2
        && paths
            .get(0)
            .toAbsolutePath()
            .normalize()
            .equals(paths.get(1).toAbsolutePath().normalize())) {
      throw new InputException(
          "--html and --pdf name the same file, " + html + ". Give two names.");
    }
    return paths;
  }

  private String page(Jobs jobs, Job job, Shop who) throws InputException, IOException {
    Kept kept = new Kept(jobs.log());
    PadMap map = kept.map(job);
    Verdict verdict = new Diagnose().verdict(map, kept.interposer(job), job);
    JobReport.Frame frame =
        new JobReport.Frame(
            who,
            Cautions.all(),
            Times.minute(parent.surroundings().clock().instant(), parent.surroundings().zone()),
            RecordHash.of(job.timeline(), jobs.log()::text),
            Version.number());
    return new JobReport(frame)
        .html(forOwner ? JobReport.Reader.OWNER : JobReport.Reader.TECHNICIAN, map, job, verdict);
  }
}
