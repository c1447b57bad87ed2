package org.jointwalk.pass;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * In what order a few joints are looked at over and over. If each round were like the last, a
 * dropout that comes with a beat could fall between the looks for ever. So each round begins a few
 * joints further on, and how many is chosen for the beat that is likeliest at a bench, about one a
 * second: that of whoever presses. The one is taken that leaves the smallest hole in ten seconds
 * when all looks at a joint are laid over each other a beat apart; a dropout longer than the hole
 * is met within ten beats. Immutable.
 */
final class Rounds {

  private static final double BEAT_SECONDS = 1;
  private static final double WITHIN_SECONDS = 10;

  private final int joints;
  private final int shift;

  /**
   * Cost grows with the cube of the number of joints at worst: milliseconds for fifty.
   *
   * @param lookSeconds how long a look at each joint takes, positive
   */
  Rounds(List<Double> lookSeconds) {
    joints = lookSeconds.size();
    int best = 0;
    double smallest = Double.POSITIVE_INFINITY;
    for (int shift = 0; shift < joints; shift++) {
      double hole = hole(lookSeconds, shift);
      if (hole < smallest) {
        smallest = hole;
        best = shift;
      }
    }
    this.shift = best;
  }

  /** Numbers of the joints in the order of so many rounds, the first of them counted from 0. */
  List<Integer> order(long first, int rounds) {
    List<Integer> order = new ArrayList<>();
    for (long round = first; round < first + rounds; round++) {
      for (int i = 0; i < joints; i++) {
        order.add((int) ((round * shift + i) % joints));
      }
    }
    return order;
  }

  /** The largest hole of any joint, in seconds of the beat. */
  static double hole(List<Double> lookSeconds, int shift) {
    int joints = lookSeconds.size();
    List<List<Double>> phases = new ArrayList<>();
    for (int i = 0; i < joints; i++) {
      phases.add(new ArrayList<>());
    }
    double now = 0;
    for (int round = 0; now < WITHIN_SECONDS; round++) {
      for (int i = 0; i < joints && now < WITHIN_SECONDS; i++) {
        int joint = (int) (((long) round * shift + i) % joints);
        double middle = now + lookSeconds.get(joint) / 2;
        phases.get(joint).add(middle % BEAT_SECONDS);
        now += lookSeconds.get(joint);
      }
    }
    return phases.stream().mapToDouble(Rounds::hole).max().orElse(BEAT_SECONDS);
  }

  private static double hole(List<Double> phases) {
    if (phases.isEmpty()) {
      return BEAT_SECONDS;
    }
    double[] sorted = phases.stream().mapToDouble(d -> d).toArray();
    Arrays.sort(sorted);
    double hole = sorted[0] + BEAT_SECONDS - sorted[sorted.length - 1];
    for (int i = 1; i < sorted.length; i++) {
      hole = Math.max(hole, sorted[i] - sorted[i - 1]);
    }
    return hole;
  }
}
