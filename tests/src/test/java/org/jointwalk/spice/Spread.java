package org.jointwalk.spice;

import java.util.SplittableRandom;

/**
 * How much one thing differs from its like: the same for ever for the same seed and name.
 *
 * @param seed of a stack or a seating
 */
record Spread(long seed) {

  /** Evenly from -1 to 1. */
  double of(String name) {
    return new SplittableRandom(seed * 31 + name.hashCode()).nextDouble(-1, 1);
  }
}
