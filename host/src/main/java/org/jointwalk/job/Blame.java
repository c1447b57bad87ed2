package org.jointwalk.job;

import java.util.Optional;

/**
 * What makes a path read high, as probabilities that add up to one.
 *
 * @param sound nothing does: the contact is as contacts are
 * @param joint something of the board or interposer, the same in every seating
 * @param probe the probe, in every seating
 * @param sporadic one bad landing
 * @param seatings that it rests on
 */
public record Blame(double sound, double joint, double probe, double sporadic, int seatings) {

  /** One seating cannot tell a joint from a probe, whatever it reads. */
  private static final int LEAST_SEATINGS = 2;

  public Blame {
    if (!(sound >= 0 && joint >= 0 && probe >= 0 && sporadic >= 0)
        || Math.abs(sound + joint + probe + sporadic - 1) > 1e-6) {
      throw new IllegalArgumentException("the four causes must add up to one");
    }
  }

  /** What a high path can come from. */
  public enum Cause {
    /** Nothing: it is sound. */
    SOUND,
    /** The path itself. */
    JOINT,
    /** The probe that reads it. */
    PROBE,
    /** One landing. */
    SPORADIC
  }

  /** Probability of one cause. */
  public double of(Cause cause) {
    return switch (cause) {
      case SOUND -> sound;
      case JOINT -> joint;
      case PROBE -> probe;
      case SPORADIC -> sporadic;
    };
  }

  /**
   * The cause that is more probable than a bar; empty when none is, and after one seating always.
   *
   * @param bar at least a half
   */
  public Optional<Cause> named(double bar) {
    if (seatings < LEAST_SEATINGS) {
      return Optional.empty();
    }
    for (Cause cause : Cause.values()) {
      if (of(cause) > bar) {
        return Optional.of(cause);
      }
    }
    return Optional.empty();
  }
}
