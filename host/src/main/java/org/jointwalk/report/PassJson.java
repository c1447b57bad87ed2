package org.jointwalk.report;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.jointwalk.fixture.Batch;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Event;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Job;
import org.jointwalk.job.Logged;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.Seating;

/**
 * A graded pass for other programs, one line of JSON in the format {@code jointwalk pass result 1}.
 * Stateless.
 */
public final class PassJson {

  private PassJson() {}

  /**
   * Writes a pass.
   *
   * @param job the job it belongs to
   * @param number of the pass, from 1
   * @param commits how often the job log made something of the pass durable, as whoever ran it
   *     counted
   * @return one line without a line feed; resistances are in ohm, times in seconds, and what is not
   *     known is null
   * @throws IllegalArgumentException when the job has no such pass or the pass is not graded
   */
  public static String line(Job job, int number, long commits) {
    PassRecord pass = Passes.of(job, number);
    Findings findings = Passes.findings(pass);
    ObjectNode root = Json.object();
    root.put("format", "jointwalk pass result 1");
    root.put("job", job.id());
    root.put("pass", number);
    root.put("setUp", pass.begun().setUp());
    root.put("purpose", Json.name(pass.begun().purpose()));
    List<Seating> seatings = pass.seatings();
    root.put("seating", seatings.isEmpty() ? 0 : seatings.get(seatings.size() - 1).number());
    ArrayNode positions = root.putArray("positions");
    findings.positions().forEach(finding -> positions.add(position(finding)));
    ArrayNode bridges = root.putArray("bridges");
    findings.bridges().forEach(bridge -> bridges.add(bridge(bridge)));
    ObjectNode counts = root.putObject("counts");
    findings.counts().forEach((grade, n) -> counts.put(Json.name(grade), n));
    List<Batch> batches = pass.scans().stream().flatMap(scan -> scan.batches().stream()).toList();
    root.put("readings", batches.stream().mapToInt(b -> b.readings().size()).sum());
    root.put("batches", batches.size());
    root.put("commits", commits);
    root.put("closures", batches.stream().mapToLong(Batch::closures).sum());
    root.put("deviceSeconds", batches.stream().mapToDouble(Batch::deviceSeconds).sum());
    root.put("wallSeconds", wallSeconds(job, pass));
    return root.toString();
  }

  private static ObjectNode position(Finding finding) {
    ObjectNode node = Json.object();
    node.put("id", finding.position());
    node.put("grade", Json.name(finding.grade()));
    Json.put(node, "ohms", finding.ohms().map(e -> e.value()));
    Json.put(node, "u", finding.ohms().map(e -> e.u()));
    Json.put(node, "limitOhms", finding.limit().map(o -> o.value()));
    node.put("seatings", finding.seatings());
    node.put("confirmed", finding.confirmed());
    Json.put(node, "detectableOhms", finding.detectable().map(o -> o.value()));
    node.put("reason", finding.reason());
    return node;
  }

  private static ObjectNode bridge(BridgeFinding bridge) {
    ObjectNode node = Json.object();
    node.set("between", Json.texts(List.of(bridge.a(), bridge.b())));
    node.put("ohms", bridge.ohms().value());
    node.put("u", bridge.ohms().u());
    return node;
  }

  /** From the first entry of the pass to its grading. */
  private static double wallSeconds(Job job, PassRecord pass) {
    Instant begun = Instant.MAX;
    Instant graded = Instant.MIN;
    for (Logged logged : job.timeline()) {
      if (logged.seq() == pass.seq()) {
        begun = logged.at();
      } else if (logged.event() instanceof Event.PassGraded g && g.pass() == pass.begun().pass()) {
        graded = logged.at();
      }
    }
    return begun.isBefore(graded) ? Duration.between(begun, graded).toMillis() / 1000.0 : 0;
  }
}
