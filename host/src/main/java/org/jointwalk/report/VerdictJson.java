package org.jointwalk.report;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import org.jointwalk.files.Names;
import org.jointwalk.job.Verdict;
import org.jointwalk.job.Verdict.Group;

/**
 * A verdict for other programs, one line of JSON in the format {@code jointwalk verdict 1}.
 * Stateless.
 */
public final class VerdictJson {

  private VerdictJson() {}

  /**
   * Writes a verdict.
   *
   * @param job id of the job that was judged
   * @param verdict of the job
   * @return one line without a line feed; components are written as in map and log files
   */
  public static String line(String job, Verdict verdict) {
    ObjectNode root = Json.object();
    root.put("format", "jointwalk verdict 1");
    root.put("job", job);
    root.put("headline", verdict.headline());
    root.set("groups", groups(verdict.groups()));
    root.set("now", groups(verdict.now()));
    root.put("fit", Json.name(verdict.fit()));
    ObjectNode next = root.putObject("next");
    next.put("what", verdict.next().what());
    next.put("minutes", verdict.next().minutes());
    if (verdict.next().setUp().isPresent()) {
      next.put("setUp", verdict.next().setUp().get());
    } else {
      next.putNull("setUp");
    }
    root.set("remarks", Json.texts(verdict.remarks()));
    root.set("notSeen", Json.texts(verdict.notSeen()));
    root.put("rule", verdict.rule());
    return root.toString();
  }

  private static ArrayNode groups(List<Group> groups) {
    ArrayNode array = Json.texts(List.of());
    for (Group group : groups) {
      ObjectNode node = array.addObject();
      node.set("regions", Json.texts(group.regions().stream().map(Json::name).toList()));
      node.set("components", Json.texts(group.components().stream().map(Names::of).toList()));
      node.set("positions", Json.texts(group.positions()));
      node.put("sureness", Json.name(group.sureness()));
      node.put("because", group.because());
    }
    return array;
  }
}
