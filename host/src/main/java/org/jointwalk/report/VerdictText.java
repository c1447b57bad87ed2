package org.jointwalk.report;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.job.Action;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Job;
import org.jointwalk.job.Verdict;
import org.jointwalk.job.Verdict.Fit;
import org.jointwalk.job.Verdict.Group;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;

/**
 * A whole verdict: what explains the complaint, what is wrong now, the evidence for each, what to
 * do next and what was not seen. Immutable.
 */
public final class VerdictText {

  private static final String PRESSURE = "Connected means connected under clamp pressure.";

  private final Look look;

  /**
   * @param look of the place where it is read
   */
  public VerdictText(Look look) {
    this.look = look;
  }

  /**
   * Writes a verdict.
   *
   * @param map the model
   * @param job the job that was judged
   * @param verdict of the job
   * @return lines that end with a line feed
   */
  public String text(PadMap map, Job job, Verdict verdict) {
    Paper paper = new Paper(look);
    Phrases phrases = new Phrases(map);
    paper.line(String.join(paper.dot(), job.id(), map.device())).blank();
    Paper.Ink ink = verdict.now().isEmpty() ? Paper.Ink.BOLD : Paper.Ink.FAULT;
    paper.line(verdict.headline(), ink).blank();

    if (verdict.groups().equals(verdict.now())) {
      groups(paper, phrases, "What is wrong", verdict.groups());
    } else {
      groups(paper, phrases, "What it came in with", verdict.groups());
      groups(paper, phrases, "What is wrong now", verdict.now());
    }
    complaint(paper, job.intake(), verdict);
    next(paper, job, verdict);
    notSeen(paper, verdict);
    return paper.text();
  }

  private static void groups(Paper paper, Phrases phrases, String title, List<Group> groups) {
    paper.line(title, Paper.Ink.BOLD);
    if (groups.isEmpty()) {
      paper.field("", 2, List.of("Nothing that can be seen."));
    }
    for (Group group : groups) {
      List<String> items = new ArrayList<>();
      items.add(phrases.where(group, Integer.MAX_VALUE));
      items.add(group.because());
      paper.field("  -", 4, items);
    }
    paper.blank();
  }

  /** Where suspects lie, with at most a number of pads by name over all of them. */
  static void where(Paper paper, Phrases phrases, String label, List<Group> groups, int named) {
    if (groups.isEmpty()) {
      paper.field(label, List.of("nothing wrong that can be seen"));
      return;
    }
    List<String> items = new ArrayList<>();
    int left = named;
    for (Group group : groups) {
      items.add(phrases.where(group, left));
      left = Math.max(0, left - group.positions().size());
    }
    paper.list(label, items);
  }

  static void complaint(Paper paper, Intake intake, Verdict verdict) {
    paper.field("Complaint", List.of(complaint(intake, verdict)));
    paper.list("", verdict.remarks());
  }

  /** Whether what was found fits what was said. */
  static String complaint(Intake intake, Verdict verdict) {
    return verdict.fit() == Fit.NOT_SAID || intake.fails().isEmpty()
        ? Phrases.fit(Fit.NOT_SAID)
        : Phrases.and(intake.fails()) + ": " + Phrases.fit(verdict.fit());
  }

  static void next(Paper paper, Job job, Verdict verdict) {
    List<String> items = new ArrayList<>();
    items.add(next(verdict));
    verdict
        .next()
        .setUp()
        .flatMap(SetUp::named)
        .ifPresent(
            setUp ->
                items.add(
                    "jointwalk pass --job "
                        + job.id()
                        + " --set-up "
                        + setUp.name()
                        + purpose(job, setUp)));
    paper.field("NEXT", items);
  }

  /** What to do, with its time. */
  static String next(Verdict verdict) {
    Verdict.Next next = verdict.next();
    return next.what() + (next.minutes() > 0 ? " (about " + next.minutes() + " min)" : "");
  }

  /** What the pass will be for, as its command asks it. */
  private static String purpose(Job job, SetUp setUp) {
    boolean soldered =
        !setUp.possible().contains(job.attachment())
            || job.actions().stream()
                .anyMatch(a -> a instanceof Action.Reball r && setUp.joints().contains(r.side()));
    if (setUp.joints().isEmpty() || !soldered) {
      return "";
    }
    return setUp.joints().size() == 1 ? " --for reball" : " --for closing";
  }

  static void notSeen(Paper paper, Verdict verdict) {
    List<String> items = new ArrayList<>(verdict.notSeen());
    items.remove(PRESSURE);
    paper.list("NOT SEEN", items);
    paper.line(PRESSURE);
  }
}
