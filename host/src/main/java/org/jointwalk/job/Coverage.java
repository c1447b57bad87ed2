package org.jointwalk.job;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.quantity.Ohms;

/**
 * What one set-up can show of each position of a sound stack in one fixture.
 *
 * @param setUp its name
 * @param pads one for each position of the map, in map order
 * @param readings that one clamping takes
 * @param seconds that the fixture needs for them
 * @param findings that a sound stack has in this set-up
 */
public record Coverage(
    String setUp, List<Pad> pads, int readings, double seconds, Findings findings) {

  public Coverage {
    pads = List.copyOf(pads);
  }

  /**
   * One position.
   *
   * @param smallest the smallest resistance that would be told from a good one, where there is one
   * @param reason why it is seen no better, in bench words; empty where it is seen by itself
   */
  public record Pad(String position, How how, Optional<Ohms> smallest, String reason) {}

  /** How a position is seen, the best first. */
  public enum How {
    BY_ITSELF("by itself"),
    AS_A_SUM("as the sum of two"),
    BY_DROP("by the drop of the junction behind it"),
    CONDUCTS("seen to conduct, no value"),
    MASKED("seen only as a set"),
    NO_DC_PATH("no path for direct current"),
    NOT_REACHED("not reached");

    private final String words;

    How(String words) {
      this.words = words;
    }

    /** The plain words that screens use. */
    public String words() {
      return words;
    }

    /** Whether an open would show. */
    public boolean showsOpen() {
      return compareTo(MASKED) < 0;
    }
  }

  /** How many positions are seen in each way; every way is there and the sum is the ring. */
  public Map<How, Integer> counts() {
    Map<How, Integer> counts = new EnumMap<>(How.class);
    for (How how : How.values()) {
      counts.put(how, 0);
    }
    pads.forEach(pad -> counts.merge(pad.how(), 1, Integer::sum));
    return counts;
  }
}
