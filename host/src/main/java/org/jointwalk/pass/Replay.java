package org.jointwalk.pass;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jointwalk.grade.Grading;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Job;
import org.jointwalk.job.PassRecord;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;

/** Grades a logged pass again with today's rules. Stateless. */
public final class Replay {

  private Replay() {}

  /**
   * The findings that today's rules make of a pass's readings.
   *
   * @param job with the pass and those before it
   * @param pass a pass of that job
   * @param assembly what was in the fixture
   * @param wired contacts that the fixture could reach
   */
  public static Findings findings(Job job, PassRecord pass, Assembly assembly, Set<Contact> wired) {
    Solve solve =
        new Solve(
            assembly,
            pass.begun().capabilities(),
            OwnDrops.of(job, assembly, pass.begun().pass()),
            pass.zero());
    return new Grading(assembly, pass.begun().capabilities(), wired)
        .findings(solve.estimates(pass.measurements()));
  }

  /** Where two findings of one pass differ, one sentence each; empty when they agree. */
  public static List<String> differences(Findings sealed, Findings now) {
    List<String> differences = new ArrayList<>();
    Map<String, Finding> before =
        sealed.positions().stream().collect(Collectors.toMap(Finding::position, f -> f));
    for (Finding finding : now.positions()) {
      Finding was = before.get(finding.position());
      if (was == null || !was.equals(finding)) {
        differences.add(
            finding.position()
                + ": was "
                + (was == null ? "not there" : was.grade().words() + " (" + was.reason() + ")")
                + ", is "
                + finding.grade().words()
                + " ("
                + finding.reason()
                + ")");
      }
    }
    if (!pairs(sealed).equals(pairs(now))) {
      differences.add("bridges: were " + pairs(sealed) + ", are " + pairs(now));
    }
    if (!sealed.boards().equals(now.boards())) {
      differences.add("boards: were " + sealed.boards() + ", are " + now.boards());
    }
    return differences;
  }

  private static List<String> pairs(Findings findings) {
    return findings.bridges().stream().map(Replay::pair).toList();
  }

  private static String pair(BridgeFinding bridge) {
    return bridge.a() + "-" + bridge.b();
  }
}
