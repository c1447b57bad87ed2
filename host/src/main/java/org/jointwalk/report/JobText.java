package org.jointwalk.report;

import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.job.Event;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Job;
import org.jointwalk.job.Logged;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.Verdict;
import org.jointwalk.stack.Attachment;

/** A job as its log tells it: what came in, what was done, what was read. Immutable. */
public final class JobText {

  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);
  private static final int WHEN_WIDTH = 18;

  private final Look look;

  /**
   * @param look of the place where it is read
   */
  public JobText(Look look) {
    this.look = look;
  }

  /**
   * Writes a job.
   *
   * @return lines that end with a line feed; times are those of the bench
   */
  public String text(Job job) {
    Paper paper = new Paper(look);
    Intake intake = job.intake();
    List<String> head = new ArrayList<>(List.of(job.id(), intake.device()));
    if (!intake.serial().isBlank()) {
      head.add("serial " + intake.serial());
    }
    head.add(job.closed() ? "closed" : "open");
    paper.line(String.join(paper.dot(), head), Paper.Ink.BOLD).blank();

    paper.field("Came in", List.of(cameIn(intake)));
    if (!intake.note().isBlank()) {
      paper.field("Note", List.of(intake.note()));
    }
    paper.field("Now", List.of(attachment(job.attachment())));
    paper.blank();
    passes(paper, job);
    paper.line("What happened", Paper.Ink.BOLD);
    for (Logged logged : job.timeline()) {
      Tale.of(logged.event())
          .ifPresent(words -> paper.field("  " + when(logged), WHEN_WIDTH + 2, List.of(words)));
    }
    lastVerdict(job).ifPresent(verdict -> verdict(paper, job, verdict));
    return paper.text();
  }

  /** When an entry was made, as the bench's clock told it. */
  static String when(Logged logged) {
    return WHEN.format(logged.at().atZone(logged.zone()));
  }

  static String cameIn(Intake intake) {
    String happened =
        intake.happened().isBlank() ? "what happened was not said" : intake.happened();
    String fails =
        intake.fails().isEmpty()
            ? "what fails was not said"
            : Phrases.and(intake.fails()) + (intake.fails().size() == 1 ? " fails" : " fail");
    return happened + "; " + fails;
  }

  static String attachment(Attachment attachment) {
    return switch (attachment) {
      case BOTH -> "the stack is whole";
      case LOWER -> "split; the interposer is on the lower board";
      case UPPER -> "split; the interposer is on the upper board";
      case NONE -> "split; the interposer is off both boards";
    };
  }

  private static void passes(Paper paper, Job job) {
    if (job.passes().isEmpty()) {
      return;
    }
    paper.line("Passes", Paper.Ink.BOLD);
    for (PassRecord pass : job.passes()) {
      paper.field(
          "  " + pass.begun().pass(),
          6,
          List.of(Phrases.setUp(pass.begun().setUp()) + paper.dot() + result(pass)));
    }
    paper.blank();
  }

  static String result(PassRecord pass) {
    if (pass.graded().isEmpty()) {
      int taken = pass.scans().stream().mapToInt(PassRecord.ScanRecord::taken).sum();
      return "not finished, " + Phrases.count(taken, "reading", "readings") + " kept";
    }
    Map<Grade, Integer> counts = Passes.findings(pass).counts();
    List<String> parts = new ArrayList<>();
    counts.forEach(
        (grade, n) -> {
          if (n > 0) {
            parts.add(n + " " + grade.words());
          }
        });
    return String.join(", ", parts);
  }

  private static Optional<Verdict> lastVerdict(Job job) {
    return job.timeline().stream()
        .map(Logged::event)
        .filter(Event.Judged.class::isInstance)
        .map(e -> ((Event.Judged) e).verdict())
        .reduce((a, b) -> b);
  }

  private static void verdict(Paper paper, Job job, Verdict verdict) {
    paper.blank();
    paper.line("Last finding", Paper.Ink.BOLD);
    paper.line(verdict.headline());
    if (!job.closed()) {
      VerdictText.next(paper, job, verdict);
    }
  }
}
