package org.jointwalk.pass;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.WatchEvent.Edge;
import org.jointwalk.job.Watched;

/**
 * Tells from look to look which joints conduct. A joint has dropped out when nothing flows or when
 * it reads more than a stated resistance above its own level; the level is the median of its first
 * looks and follows slowly, so that a board that warms up is no dropout. One thread.
 */
final class Dropouts {

  private static final int FIRST = 5;
  private static final double FOLLOWS = 1.0 / 64;

  private final double aboveOhms;
  private final Map<String, Joint> joints = new LinkedHashMap<>();
  private long looks;
  private double certain;

  private static final class Joint {

    private final List<Double> first = new ArrayList<>();
    private double level = Double.NaN;
    private boolean out;
    private double since;
    private double lastOut;
    private int dropouts;
    private Optional<Double> firstOut = Optional.empty();
    private double longest;
    private Optional<Double> seen = Optional.empty();

    private void learn(double ohms) {
      if (first.size() < FIRST) {
        first.add(ohms);
        double[] sorted = first.stream().mapToDouble(d -> d).sorted().toArray();
        level = sorted[sorted.length / 2];
      } else {
        level += FOLLOWS * (ohms - level);
      }
    }
  }

  /**
   * @param aboveOhms positive
   */
  Dropouts(double aboveOhms) {
    this.aboveOhms = aboveOhms;
  }

  /** The fixture was seated again: levels begin anew, and the time between was nobody's to see. */
  void begin(List<String> positions) {
    for (String position : positions) {
      Joint joint = joints.computeIfAbsent(position, k -> new Joint());
      joint.first.clear();
      joint.seen = Optional.empty();
    }
  }

  /**
   * Takes one look.
   *
   * @param from when it began, in seconds since the watch began
   * @param until when it ended
   * @return what changed
   */
  Optional<Edge> look(String position, Step step, Reading reading, double from, double until) {
    Joint joint = joints.computeIfAbsent(position, k -> new Joint());
    if (reading instanceof Reading.Refused) {
      return Optional.empty();
    }
    looks++;
    joint.seen.ifPresent(before -> certain = Math.max(certain, until - before));
    joint.seen = Optional.of(from);
    Optional<Double> ohms = ohms(reading);
    boolean out = ohms.isEmpty() || isAbove(joint, step, ohms.get());
    if (!out) {
      joint.learn(ohms.get());
    }
    return change(position, joint, out, from, until);
  }

  private static Optional<Edge> change(
      String position, Joint joint, boolean out, double from, double until) {
    boolean before = joint.out;
    joint.out = out;
    if (out && !before) {
      joint.since = from;
      joint.dropouts++;
      joint.firstOut = joint.firstOut.or(() -> Optional.of(from));
    }
    if (out) {
      joint.lastOut = until;
      joint.longest = Math.max(joint.longest, until - joint.since);
    }
    return out == before
        ? Optional.empty()
        : Optional.of(new Edge(position, out, out ? from : joint.lastOut));
  }

  private boolean isAbove(Joint joint, Step step, double ohms) {
    if (joint.first.isEmpty()) {
      return false;
    }
    // A load of kilohms behind the joint is read with as much noise: there a dropout halves it.
    double most = step.kind() == Kind.ISOLATION ? Math.max(aboveOhms, joint.level) : aboveOhms;
    return ohms > joint.level + most;
  }

  /** Voltage over current, empty when the source found no path. */
  private static Optional<Double> ohms(Reading reading) {
    if (!(reading instanceof Reading.Measured measured)) {
      return Optional.empty();
    }
    double[] each =
        measured.points().stream().mapToDouble(p -> Math.abs(p.volts() / p.amps())).toArray();
    double mean = Arrays.stream(each).average().orElse(Double.POSITIVE_INFINITY);
    return Double.isFinite(mean) ? Optional.of(mean) : Optional.empty();
  }

  long looks() {
    return looks;
  }

  /** What was seen so far. */
  Watched watched(double seconds) {
    List<Watched.Joint> all = new ArrayList<>();
    joints.forEach(
        (position, joint) ->
            all.add(
                new Watched.Joint(
                    position, joint.dropouts, joint.firstOut, joint.longest, joint.out)));
    return new Watched(seconds, looks, certain, all);
  }
}
