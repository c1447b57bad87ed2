package org.jointwalk.job;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * All that one pass says.
 *
 * @param positions one finding per position of the map, in map order
 * @param bridges joined pairs
 * @param boards nets that read otherwise than a good board's
 * @param rule id of the decision rule that graded
 */
public record Findings(
    List<Finding> positions, List<BridgeFinding> bridges, List<BoardFinding> boards, String rule) {

  public Findings {
    positions = List.copyOf(positions);
    bridges = List.copyOf(bridges);
    boards = List.copyOf(boards);
  }

  /** How many positions have each grade; every grade is there and the sum is the ring. */
  public Map<Grade, Integer> counts() {
    Map<Grade, Integer> counts = new EnumMap<>(Grade.class);
    for (Grade grade : Grade.values()) {
      counts.put(grade, 0);
    }
    for (Finding finding : positions) {
      counts.merge(finding.grade(), 1, Integer::sum);
    }
    return counts;
  }

  /** The findings with this grade, in map order. */
  public List<Finding> graded(Grade grade) {
    return positions.stream().filter(f -> f.grade() == grade).toList();
  }

  /** Whether anything asks for a repair. */
  public boolean anyFault() {
    return !bridges.isEmpty()
        || !boards.isEmpty()
        || positions.stream().anyMatch(f -> f.grade().isFault());
  }
}
