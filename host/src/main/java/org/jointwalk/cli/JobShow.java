package org.jointwalk.cli;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jointwalk.job.Event;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Job;
import org.jointwalk.job.Logged;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.WatchEvent;
import org.jointwalk.job.WatchRecord;
import org.jointwalk.report.BudgetJson;
import org.jointwalk.report.BudgetText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code job show}. */
@Command(
    footer = {
      "",
      "Once a pass has read it, --explain N014 shows where the uncertainty of a pad's value comes from.",
      "",
      "Example:",
      "  jointwalk job show --job J-0001"
    })
final class JobShow implements Callable<Integer> {

  private final JobCommand parent;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private OnJob on = new OnJob();

  @Option(names = "--json", description = "As JSON, for other programs.")
  private boolean json;

  @Option(
      names = "--explain",
      paramLabel = "PAD",
      description =
          "Only this pad: what makes its last value uncertain, and how it was held against its"
              + " limit.")
  private Optional<String> explain = Optional.empty();

  JobShow(JobCommand parent) {
    this.parent = parent;
  }

  @Override
  public Integer call() throws InputException {
    Console console = parent.console(spec);
    try (Jobs jobs = parent.jobs()) {
      Job job = jobs.find(on.id());
      if (explain.isPresent()) {
        explain(console, job, OnPosition.checked(explain.get()));
      } else if (json) {
        JobJson.show(console.writer(), jobs.file(), job);
      } else {
        tell(console, job);
      }
    }
    return ExitCode.GOOD.number();
  }

  private void explain(Console console, Job job, String position) throws InputException {
    try {
      if (json) {
        console.writer().println(BudgetJson.last(job, position));
      } else {
        console.writer().print(new BudgetText(parent.look()).last(job, position));
      }
      console.writer().flush();
    } catch (IllegalArgumentException e) {
      throw new InputException(String.valueOf(e.getMessage()));
    }
  }

  private static void tell(Console console, Job job) {
    console.title(
        job.id() + "  " + job.intake().device() + "  " + (job.closed() ? "closed" : "open"));
    facts(job).lines().forEach(console::line);
    if (!job.passes().isEmpty()) {
      console.line("");
      console.title("Passes");
      passes(job).lines().forEach(console::line);
    }
    for (WatchRecord watch : WatchRecord.of(job)) {
      console.line("");
      console.title("Watch " + watch.begun().watch() + ", " + watch.begun().setUp());
      WatchText.tell(console, watch);
    }
    Verdicts.last(job)
        .ifPresent(
            verdict -> {
              console.line("");
              console.title(verdict.headline());
              console.next(verdict.next().what() + " (about " + verdict.next().minutes() + " min)");
            });
    console.line("");
    console.title("Record");
    record(job).lines().forEach(console::line);
  }

  private static Columns facts(Job job) {
    Intake intake = job.intake();
    Columns facts = new Columns();
    fact(facts, "serial", intake.serial());
    fact(facts, "happened", intake.happened());
    fact(facts, "fails", String.join(", ", intake.fails()));
    fact(facts, "note", intake.note());
    fact(facts, "works when clamped", Sentences.of(job.clamped()));
    fact(facts, "seen", job.seen().stream().map(Sentences::of).collect(Collectors.joining("; ")));
    fact(facts, "now", Sentences.of(job.attachment()));
    return facts;
  }

  private static void fact(Columns facts, String name, String value) {
    if (!value.isEmpty()) {
      facts.row("  " + name, value);
    }
  }

  private static Columns passes(Job job) {
    Columns passes = new Columns();
    for (PassRecord pass : job.passes()) {
      passes.row(
          "  " + pass.begun().pass(),
          pass.begun().setUp(),
          Sentences.of(pass.begun().purpose()),
          Sentences.count(pass.seatings().size(), "seating"),
          Sentences.count(
              pass.scans().stream().mapToInt(PassRecord.ScanRecord::taken).sum(), "reading"),
          pass.graded().map(graded -> Sentences.of(graded.findings())).orElse("not finished"));
    }
    return passes;
  }

  /** What people entered and what the program concluded; scans and readings are counted above. */
  private static Columns record(Job job) {
    List<Logged> entries =
        job.timeline().stream()
            .filter(
                entry ->
                    !(entry.event() instanceof Event.BatchKept)
                        && !(entry.event() instanceof Event.ScanPlanned)
                        && !(entry.event() instanceof WatchEvent.Kept)
                        && !(entry.event() instanceof WatchEvent.Planned)
                        && !(entry.event() instanceof WatchEvent.Changed))
            .toList();
    Columns record = new Columns();
    for (Logged entry : entries) {
      record.row(
          "  " + Times.minute(entry), Sentences.by(entry.event()), Sentences.of(entry.event()));
    }
    return record;
  }
}
