package org.jointwalk.cli;

import java.io.IOException;
import java.nio.file.Path;
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
      "The page needs nothing from outside. Its last line has the SHA-256 of the job's record, so that"
          + " a page can be matched with the log it was made from.",
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
    requireApart();
    Optional<NewFile> document = target(html);
    Optional<NewFile> print = target(pdf);
    try (Jobs jobs = parent.jobs()) {
      Shop who = shop.shop(jobs.file());
      Job job = jobs.find(on.id());
      String page = page(jobs, job, who);
      if (document.isPresent()) {
        document.get().write(page);
        tell(job, document.get());
      }
      if (print.isPresent()) {
        print.get().write(PdfPrinter.print(page));
        tell(job, print.get());
      }
    }
    return ExitCode.GOOD.number();
  }

  private void requireApart() throws InputException {
    if (html != null
        && pdf != null
        && html.toAbsolutePath().normalize().equals(pdf.toAbsolutePath().normalize())) {
      throw new InputException(
          "--html and --pdf name the same file, " + html + ". Give two names.");
    }
  }

  private Optional<NewFile> target(@Nullable Path path) throws InputException {
    if (path == null) {
      return Optional.empty();
    }
    NewFile target = new NewFile(path, force);
    target.requirePossible();
    return Optional.of(target);
  }

  private void tell(Job job, NewFile target) {
    parent
        .console(spec)
        .line(
            job.id()
                + "  "
                + (forOwner ? "page for the owner" : "report")
                + " in "
                + target.path());
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
