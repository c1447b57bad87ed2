package org.jointwalk.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Event;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Job;
import org.jointwalk.job.Logged;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.Verdict;
import org.jointwalk.job.Verdict.Group;
import org.jointwalk.stack.PadMap;

/** The report for whoever works on the device: all of the finding with its evidence. Immutable. */
final class TechnicianSheet {

  private static final String SIGN = "\u00b1";

  private final PadMap map;
  private final Phrases phrases;

  TechnicianSheet(PadMap map) {
    this.map = map;
    phrases = new Phrases(map);
  }

  Sheet of(Job job, Verdict verdict, JobReport.Frame frame) {
    Pictures pictures = new Pictures(map, job);
    List<PassRecord> drawn = pictures.chosen();
    return new Sheet(
        "Job " + job.id() + ", " + job.intake().device(),
        frame.shop(),
        facts(job),
        verdict.headline(),
        !verdict.now().isEmpty(),
        blocks(job, verdict),
        pictures.rings(drawn),
        drawn.isEmpty()
            ? Optional.empty()
            : Optional.of(pictures.profile(drawn.get(drawn.size() - 1))),
        tables(job),
        frame.cautions(),
        frame.made(),
        frame.hash(),
        frame.program());
  }

  private static List<Sheet.Fact> facts(Job job) {
    List<Sheet.Fact> facts = new ArrayList<>();
    facts.add(new Sheet.Fact("Device", job.intake().device()));
    if (!job.intake().serial().isBlank()) {
      facts.add(new Sheet.Fact("Serial", job.intake().serial()));
    }
    facts.add(new Sheet.Fact("Came in", JobText.cameIn(job.intake())));
    if (!job.intake().note().isBlank()) {
      facts.add(new Sheet.Fact("Note", job.intake().note()));
    }
    facts.add(new Sheet.Fact("Now", JobText.attachment(job.attachment())));
    facts.add(new Sheet.Fact("Job", job.closed() ? "closed" : "open"));
    return facts;
  }

  private List<Sheet.Block> blocks(Job job, Verdict verdict) {
    List<Sheet.Block> blocks = new ArrayList<>();
    if (verdict.groups().equals(verdict.now())) {
      blocks.add(groups("What is wrong", verdict.groups()));
    } else {
      blocks.add(groups("What it came in with", verdict.groups()));
      blocks.add(groups("What is wrong now", verdict.now()));
    }
    List<String> complaint = new ArrayList<>();
    complaint.add(VerdictText.complaint(job.intake(), verdict));
    complaint.addAll(verdict.remarks());
    blocks.add(new Sheet.Block("Does it fit the complaint", complaint));
    if (!job.closed()) {
      blocks.add(new Sheet.Block("Next", List.of(VerdictText.next(verdict))));
    }
    blocks.add(new Sheet.Block("Not seen, and why", verdict.notSeen()));
    return blocks;
  }

  private Sheet.Block groups(String heading, List<Group> groups) {
    List<String> sentences = new ArrayList<>();
    for (Group group : groups) {
      sentences.add(
          Phrases.capital(phrases.where(group, Integer.MAX_VALUE)) + ". " + group.because());
    }
    return new Sheet.Block(
        heading, sentences.isEmpty() ? List.of("Nothing that can be seen.") : sentences);
  }

  private List<Sheet.Table> tables(Job job) {
    List<Sheet.Table> tables = new ArrayList<>();
    tables.add(passes(job));
    for (PassRecord pass : job.passes()) {
      pass.graded().map(Event.PassGraded::findings).ifPresent(f -> faults(pass, f, tables));
    }
    last(job).ifPresent(pass -> tables.add(unseen(pass)));
    tables.add(fixtures(job));
    tables.add(timeline(job));
    return tables;
  }

  private static Optional<PassRecord> last(Job job) {
    return job.passes().stream().filter(p -> p.graded().isPresent()).reduce((a, b) -> b);
  }

  private static Sheet.Table passes(Job job) {
    List<List<String>> rows = new ArrayList<>();
    for (PassRecord pass : job.passes()) {
      rows.add(
          List.of(
              Integer.toString(pass.begun().pass()),
              Phrases.setUp(pass.begun().setUp()),
              pass.begun().by(),
              Integer.toString(pass.seatings().size()),
              Integer.toString(pass.scans().stream().mapToInt(PassRecord.ScanRecord::taken).sum()),
              JobText.result(pass)));
    }
    return new Sheet.Table(
        "Passes", List.of("No.", "In the fixture", "By", "Clampings", "Readings", "Result"), rows);
  }

  private static void faults(PassRecord pass, Findings findings, List<Sheet.Table> tables) {
    List<List<String>> rows = new ArrayList<>();
    for (Finding finding : findings.positions()) {
      if (finding.grade().isFault() || finding.grade() == Grade.UNDECIDED) {
        rows.add(
            List.of(
                finding.position(),
                finding.grade().words(),
                finding.ohms().map(e -> Figures.ohms(e, SIGN)).orElse(""),
                finding.limit().map(l -> Figures.ohms(l.value())).orElse(""),
                finding.confirmed() ? "yes" : "no",
                finding.reason()));
      }
    }
    for (BridgeFinding bridge : findings.bridges()) {
      rows.add(
          List.of(
              bridge.a() + "-" + bridge.b(),
              "joined",
              Figures.ohms(bridge.ohms(), SIGN),
              "",
              "",
              "metal or residue between the two"));
    }
    for (BoardFinding board : findings.boards()) {
      rows.add(List.of(board.net().name(), "net reads otherwise", "", "", "", board.reason()));
    }
    if (!rows.isEmpty()) {
      tables.add(
          new Sheet.Table(
              "Evidence of pass "
                  + pass.begun().pass()
                  + ", "
                  + Phrases.setUp(pass.begun().setUp()),
              List.of("Where", "Grade", "Value", "Limit", "Confirmed", "Reason"),
              rows));
    }
  }

  /** Every pad of a pass that was not judged by itself, by grade, all by name. */
  private static Sheet.Table unseen(PassRecord pass) {
    Findings findings = pass.graded().map(Event.PassGraded::findings).orElseThrow();
    List<List<String>> rows = new ArrayList<>();
    Map<Grade, List<String>> byGrade = new LinkedHashMap<>();
    for (Finding finding : findings.positions()) {
      Grade grade = finding.grade();
      if (!grade.isFault() && !grade.isConnected()) {
        byGrade.computeIfAbsent(grade, g -> new ArrayList<>()).add(finding.position());
      }
    }
    byGrade.forEach(
        (grade, ids) ->
            rows.add(
                List.of(
                    grade.words(),
                    Integer.toString(ids.size()),
                    Phrases.meaning(grade),
                    String.join(" ", ids))));
    return new Sheet.Table(
        "Not judged by themselves in pass " + pass.begun().pass(),
        List.of("Grade", "Pads", "Why", "Which"),
        rows);
  }

  private static Sheet.Table fixtures(Job job) {
    List<List<String>> rows = new ArrayList<>();
    for (PassRecord pass : job.passes()) {
      Capabilities able = pass.begun().capabilities();
      rows.add(
          List.of(
              Integer.toString(pass.begun().pass()),
              able.identity(),
              able.build(),
              able.calibration(),
              pass.graded()
                  .map(g -> g.findings().rule() + ", " + g.program())
                  .orElse("not graded")));
    }
    return new Sheet.Table(
        "Fixture and decision rule",
        List.of("Pass", "Fixture", "Firmware", "Calibration", "Rule and program"),
        rows);
  }

  private static Sheet.Table timeline(Job job) {
    List<List<String>> rows = new ArrayList<>();
    for (Logged logged : job.timeline()) {
      Tale.of(logged.event()).ifPresent(words -> rows.add(List.of(JobText.when(logged), words)));
    }
    return new Sheet.Table("What happened", List.of("When", "What"), rows);
  }
}
