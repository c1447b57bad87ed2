package org.jointwalk.report;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Job;
import org.jointwalk.quantity.Contribution;

/**
 * One explained value for other programs, one line of JSON in the format {@code jointwalk budget
 * 1}. Resistances are in ohm; what is not known is null, and so are degrees of freedom without end.
 * {@code budget} lists {@code source}, {@code u}, {@code type} (A or B), {@code dof}, {@code share}
 * of the variance and {@code skewness}, the largest first; {@code interval} has {@code low}, {@code
 * high}, {@code level} and {@code coverageFactor}, {@code guard} has {@code ohms} and {@code risk}.
 * Stateless.
 */
public final class BudgetJson {

  private BudgetJson() {}

  /**
   * The last pass that has a value for a position.
   *
   * @return one line without a line feed
   * @throws IllegalArgumentException when no pass graded it
   */
  public static String last(Job job, String position) {
    return line(job, Explained.last(job, position));
  }

  /**
   * One pass.
   *
   * @param number of the pass, from 1
   * @return one line without a line feed
   * @throws IllegalArgumentException when the pass did not grade it
   */
  public static String line(Job job, int number, String position) {
    return line(job, Explained.of(job, number, position));
  }

  private static String line(Job job, Explained explained) {
    Finding finding = explained.finding();
    ObjectNode root = Json.object();
    root.put("format", "jointwalk budget 1");
    root.put("job", job.id());
    root.put("pass", explained.pass().begun().pass());
    root.put("setUp", explained.pass().begun().setUp());
    root.put("position", finding.position());
    root.put("grade", Json.name(finding.grade()));
    root.put("confirmed", finding.confirmed());
    root.put("meaning", explained.meaning());
    root.put("reason", finding.reason());
    root.put("rule", explained.findings().rule());
    Json.put(root, "ohms", finding.ohms().map(e -> e.value()));
    Json.put(root, "u", finding.ohms().map(e -> e.u()));
    Json.put(root, "dof", finding.ohms().map(e -> e.dof()).filter(Double::isFinite));
    Json.put(root, "withContactOhms", explained.withContact().map(e -> e.value()));
    Json.put(root, "withContactU", explained.withContact().map(e -> e.u()));
    Json.put(root, "limitOhms", finding.limit().map(o -> o.value()));
    finding
        .decision()
        .ifPresent(
            d -> {
              ObjectNode interval = root.putObject("interval");
              interval.put("low", d.low());
              interval.put("high", d.high());
              interval.put("level", d.level());
              Json.put(interval, "coverageFactor", explained.coverageFactor());
              ObjectNode guard = root.putObject("guard");
              guard.put("ohms", d.guard().value());
              guard.put("risk", d.risk());
            });
    ArrayNode budget = root.putArray("budget");
    for (Contribution c : explained.sources()) {
      ObjectNode line = budget.addObject();
      line.put("source", c.source());
      line.put("u", c.u());
      line.put("type", c.type().name());
      if (Double.isFinite(c.dof())) {
        line.put("dof", c.dof());
      } else {
        line.putNull("dof");
      }
      line.put("share", Explained.share(finding.ohms().orElseThrow(), c));
      line.put("skewness", c.shape().skewness());
    }
    return root.toString();
  }
}
