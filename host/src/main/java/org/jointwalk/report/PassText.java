package org.jointwalk.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Job;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Verdict;
import org.jointwalk.job.Verdict.Group;
import org.jointwalk.stack.PadMap;

/**
 * The first lines after a pass: the finding, where, which pads, whether it explains the complaint,
 * what to do next and what was not seen; below it what the pass read. Immutable.
 */
public final class PassText {

  /** Names on one screen; who needs more looks at the list. */
  private static final int NAMED = 12;

  private static final List<Grade> ALWAYS =
      List.of(Grade.GOOD, Grade.HIGH, Grade.OPEN, Grade.BRIDGED, Grade.NOT_CONTACTED, Grade.MASKED);

  private final Look look;

  /**
   * @param look of the place where it is read
   */
  public PassText(Look look) {
    this.look = look;
  }

  /**
   * Writes a graded pass.
   *
   * @param map the model
   * @param job the job it belongs to
   * @param number of the pass, from 1
   * @param verdict what the whole job says after it
   * @return lines that end with a line feed
   * @throws IllegalArgumentException when the job has no such pass or the pass is not graded
   */
  public String text(PadMap map, Job job, int number, Verdict verdict) {
    PassRecord pass = Passes.of(job, number);
    Findings findings = Passes.findings(pass);
    Paper paper = new Paper(look);
    Phrases phrases = new Phrases(map);
    boolean repair = pass.begun().purpose() != Purpose.DIAGNOSIS;

    List<String> head = new ArrayList<>(List.of(job.id(), map.device()));
    head.add(Phrases.setUp(pass.begun().setUp()));
    if (!pass.begun().by().isBlank()) {
      head.add("by " + pass.begun().by());
    }
    paper.line(String.join(paper.dot(), head)).blank();
    paper.line(headline(pass, findings, verdict), ink(findings, verdict)).blank();
    List<Group> first = repair ? verdict.now() : verdict.groups();
    List<Group> second = repair ? verdict.groups() : verdict.now();
    VerdictText.where(paper, phrases, "Where", first, NAMED);
    if (!second.equals(first)) {
      VerdictText.where(paper, phrases, repair ? "Came in" : "Wrong now", second, NAMED);
    }
    VerdictText.complaint(paper, job.intake(), verdict);
    VerdictText.next(paper, job, verdict);
    VerdictText.notSeen(paper, verdict);
    paper.blank();
    results(paper, pass, findings);
    return paper.text();
  }

  /** What the job says; a pass that found nothing says so first when the job has other suspects. */
  private static String headline(PassRecord pass, Findings findings, Verdict verdict) {
    boolean clean = !findings.anyFault() && findings.graded(Grade.UNDECIDED).isEmpty();
    boolean elsewhere = !verdict.groups().isEmpty() || !verdict.now().isEmpty();
    return pass.begun().purpose() == Purpose.DIAGNOSIS && clean && elsewhere
        ? Phrases.setUp(pass.begun().setUp()).toUpperCase(Locale.ROOT)
            + " SHOWS NO FAULT. THE JOB: "
            + verdict.headline()
        : verdict.headline();
  }

  private static Paper.Ink ink(Findings findings, Verdict verdict) {
    if (findings.anyFault()
        || verdict.now().stream().anyMatch(g -> g.sureness() != Verdict.Sureness.UNDECIDED)) {
      return Paper.Ink.FAULT;
    }
    Map<Grade, Integer> counts = findings.counts();
    int open =
        counts.getOrDefault(Grade.NOT_CONTACTED, 0) + counts.getOrDefault(Grade.UNDECIDED, 0);
    return open > 0 || !verdict.now().isEmpty() ? Paper.Ink.CARE : Paper.Ink.GOOD;
  }

  private static void results(Paper paper, PassRecord pass, Findings findings) {
    Map<Grade, Integer> counts = findings.counts();
    paper.line(
        "This pass, "
            + Phrases.count(findings.positions().size(), "pad", "pads")
            + " in "
            + Phrases.count(pass.seatings().size(), "clamping", "clampings")
            + ":");
    for (Grade grade : Grade.values()) {
      int n = counts.getOrDefault(grade, 0);
      if (n > 0 || ALWAYS.contains(grade)) {
        String label = String.format(Locale.ROOT, "%5d  %s", n, grade.words());
        paper.field(label, 37, List.of(Phrases.meaning(grade) + sure(findings, grade)));
      }
    }
    boolean figures = values(paper, findings);
    for (BoardFinding board : findings.boards()) {
      paper.line("Net " + board.net().name() + ": " + board.reason());
    }
    if (figures) {
      paper.line("The figure after " + paper.plusMinus() + " is two standard uncertainties.");
    }
  }

  private static String sure(Findings findings, Grade grade) {
    List<Finding> found = findings.graded(grade);
    if ((grade != Grade.OPEN && grade != Grade.HIGH) || found.isEmpty()) {
      return "";
    }
    long once = found.stream().filter(f -> !f.confirmed()).count();
    return once == 0
        ? "; confirmed"
        : once == found.size()
            ? "; not confirmed, joint or contact"
            : "; " + once + " of them not confirmed, joint or contact";
  }

  private static boolean values(Paper paper, Findings findings) {
    List<String> high = new ArrayList<>();
    for (Finding finding : findings.graded(Grade.HIGH)) {
      finding
          .ohms()
          .ifPresent(
              e ->
                  high.add(
                      finding.position()
                          + " "
                          + Figures.ohms(e, paper.plusMinus())
                          + finding
                              .limit()
                              .map(l -> " (limit " + Figures.ohms(l.value()) + ")")
                              .orElse("")));
    }
    List<String> joined = new ArrayList<>();
    for (BridgeFinding bridge : findings.bridges()) {
      joined.add(
          bridge.a() + "-" + bridge.b() + " " + Figures.ohms(bridge.ohms(), paper.plusMinus()));
    }
    list(paper, "High", high);
    list(paper, "Bridged", joined);
    return !high.isEmpty() || !joined.isEmpty();
  }

  private static void list(Paper paper, String label, List<String> values) {
    if (!values.isEmpty()) {
      paper.field(label, List.of(Phrases.ids(values, NAMED)));
    }
  }
}
