package org.jointwalk.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jointwalk.job.Decision;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Job;
import org.jointwalk.quantity.Contribution;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;

/**
 * One value with all that makes it uncertain, and how it was held against its limit: a table of
 * sources (JCGM 100:2008), then value, interval, limit, guard, rule and grade. Immutable.
 */
public final class BudgetText {

  private static final double MANY = 1e4;

  /** Blanks between two columns of the table. */
  private static final int GAP = 2;

  private final Look look;

  /**
   * @param look of the place where it is read
   */
  public BudgetText(Look look) {
    this.look = look;
  }

  /**
   * Explains a position by the last pass that has a value for it.
   *
   * @return lines that end with a line feed
   * @throws IllegalArgumentException when no pass graded it
   */
  public String last(Job job, String position) {
    return text(job, Explained.last(job, position));
  }

  /**
   * Explains a position in one pass.
   *
   * @param number of the pass, from 1
   * @return lines that end with a line feed
   * @throws IllegalArgumentException when the pass did not grade it
   */
  public String text(Job job, int number, String position) {
    return text(job, Explained.of(job, number, position));
  }

  private String text(Job job, Explained explained) {
    Finding finding = explained.finding();
    Paper paper = new Paper(look);
    paper.line(
        String.join(
            paper.dot(),
            List.of(
                finding.position(),
                job.id() + " pass " + explained.pass().begun().pass(),
                Phrases.setUp(explained.pass().begun().setUp()),
                finding.grade().words())));
    paper.field("Means", List.of(explained.meaning()));
    paper.field("Because", List.of(finding.reason()));
    finding.ohms().ifPresent(ohms -> told(paper, explained, ohms));
    return paper.text();
  }

  private void told(Paper paper, Explained explained, Estimate ohms) {
    paper.blank();
    table(paper, ohms, explained.sources()).forEach(paper::line);
    paper.blank();
    paper.field(
        "Value",
        List.of(
            precise(ohms.value(), ohms.u())
                + ", standard uncertainty "
                + Figures.ohms(ohms.u())
                + ", degrees of freedom "
                + dof(ohms.dof())));
    explained
        .withContact()
        .ifPresent(
            both ->
                paper.field(
                    "As read",
                    List.of(
                        "joint and contact together "
                            + precise(both.value(), both.u())
                            + ", standard uncertainty "
                            + Figures.ohms(both.u()))));
    Optional<Decision> decision = explained.finding().decision();
    decision.ifPresent(
        d ->
            paper.field(
                "Interval",
                List.of(
                    percent(d.level())
                        + " from "
                        + precise(d.low(), ohms.u())
                        + " to "
                        + precise(d.high(), ohms.u())
                        + (d.low() < 0 ? " (no resistance lies below zero)" : "")
                        + explained
                            .coverageFactor()
                            .map(k -> String.format(Locale.ROOT, ", coverage factor %.2f", k))
                            .orElse(""))));
    explained.finding().limit().ifPresent(limit -> limit(paper, explained, ohms, limit));
  }

  private static void limit(Paper paper, Explained explained, Estimate ohms, Ohms limit) {
    Finding finding = explained.finding();
    finding
        .decision()
        .ifPresent(
            d -> {
              paper.field(
                  "Limit",
                  List.of(
                      Figures.ohms(limit.value())
                          + ", guard "
                          + Figures.ohms(d.guard().value())
                          + " for a risk of "
                          + percent(d.risk())
                          + " at the limit"));
              paper.field(
                  "Rule",
                  List.of(
                      explained.findings().rule()
                          + ": guarded acceptance and rejection (JCGM 106:2012, ILAC-G8:09/2019)"));
              paper.field("Decision", List.of(decision(finding, d, ohms, limit)));
            });
  }

  private static String decision(Finding finding, Decision d, Estimate ohms, Ohms limit) {
    boolean beyond = ohms.value() > limit.value();
    boolean clear = Math.abs(limit.value() - ohms.value()) >= d.guard().value();
    String where =
        clear
            ? (beyond
                ? "above the limit by more than the guard"
                : "below it by more than the guard")
            : "within the guard of the limit";
    String seatings =
        finding.grade() == Grade.HIGH || finding.grade() == Grade.OPEN
            ? finding.confirmed()
                ? "; confirmed by another clamping"
                : "; not confirmed, joint or contact"
            : "";
    return finding.grade().words() + ": the value lies " + where + seatings;
  }

  /** A row for each source; a name that is too long for the width goes on in the next line. */
  private List<String> table(Paper paper, Estimate ohms, List<Contribution> sources) {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("Source", "u", "type", "dof", "share"));
    for (Contribution c : sources) {
      rows.add(
          List.of(
              c.source(),
              Figures.ohms(c.u()),
              c.type().name(),
              dof(c.dof()),
              percent(Explained.share(ohms, c))));
    }
    int[] widths = new int[rows.get(0).size()];
    for (List<String> row : rows) {
      for (int i = 0; i < widths.length; i++) {
        widths[i] = Math.max(widths[i], row.get(i).length());
      }
    }
    int figures = 0;
    for (int i = 1; i < widths.length; i++) {
      figures += GAP + widths[i];
    }
    int width = Math.min(widths[0], look.columns() - figures);
    List<String> lines = new ArrayList<>();
    for (List<String> row : rows) {
      List<String> name = paper.wrapped(row.get(0), width);
      StringBuilder line = new StringBuilder(name.get(0));
      line.append(" ".repeat(Math.max(0, width - line.length())));
      for (int i = 1; i < widths.length; i++) {
        line.append(" ".repeat(GAP + widths[i] - row.get(i).length())).append(row.get(i));
      }
      lines.add(line.toString());
      name.stream().skip(1).map(more -> "  " + more).forEach(lines::add);
    }
    return lines;
  }

  private static String dof(double dof) {
    return dof < MANY ? String.format(Locale.ROOT, "%.0f", Math.floor(dof)) : "many";
  }

  private static String percent(double share) {
    double percent = share * 100;
    return percent > 0 && percent < 0.1
        ? "< 0.1 %"
        : String.format(Locale.ROOT, percent < 10 ? "%.1f %%" : "%.0f %%", percent);
  }

  /** A value to the second digit of its uncertainty, at most to the microohm. */
  private static String precise(double value, double u) {
    int place = u > 0 ? (int) Math.ceil(1 - Math.log10(u)) : 6;
    return String.format(Locale.ROOT, "%." + Math.max(0, Math.min(6, place)) + "f ohm", value);
  }
}
