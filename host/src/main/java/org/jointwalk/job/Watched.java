package org.jointwalk.job;

import java.util.List;
import java.util.Optional;

/**
 * What a watch saw.
 *
 * @param seconds it lasted
 * @param looks taken, over all joints
 * @param certainSeconds a dropout of this length or longer cannot have been missed: the longest
 *     time that passed from one look at a joint to the next, with both looks; 0 before there were
 *     two
 * @param joints in the order watched
 */
public record Watched(double seconds, long looks, double certainSeconds, List<Joint> joints) {

  public Watched {
    joints = List.copyOf(joints);
  }

  /**
   * One watched joint.
   *
   * @param dropouts how often it was seen to drop out
   * @param firstSeconds when it first did
   * @param longestSeconds for how long it was seen out without a break, at least; 0 for none
   * @param outAtEnd whether it was out when last seen
   */
  public record Joint(
      String position,
      int dropouts,
      Optional<Double> firstSeconds,
      double longestSeconds,
      boolean outAtEnd) {}

  /** The joints that dropped out, the most frequent first. */
  public List<Joint> dropping() {
    return joints.stream()
        .filter(j -> j.dropouts() > 0)
        .sorted((a, b) -> Integer.compare(b.dropouts(), a.dropouts()))
        .toList();
  }
}
