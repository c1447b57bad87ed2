package org.jointwalk.trial;

import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;

/**
 * Repeats a check on drawn examples. The first that fails is named, so that it can be run alone.
 */
public final class Trials {

  private static final RandomGeneratorFactory<RandomGenerator> GENERATORS =
      RandomGeneratorFactory.of("L64X128MixRandom");

  private Trials() {}

  /** A check of one example. */
  @FunctionalInterface
  public interface Check {

    /**
     * Draws an example and checks it.
     *
     * @param random everything that is drawn comes from it
     */
    void on(RandomGenerator random) throws Exception;
  }

  /**
   * Checks the examples of the seeds from 1 on.
   *
   * @param count how many
   */
  public static void of(int count, Check check) {
    for (int seed = 1; seed <= count; seed++) {
      one(seed, check);
    }
  }

  /** Checks the example of one seed. */
  public static void one(long seed, Check check) {
    try {
      check.on(random(seed));
    } catch (Exception | AssertionError e) {
      throw new AssertionError("the example of seed " + seed + " fails: " + e.getMessage(), e);
    }
  }

  /** What an example of this seed is drawn from. */
  public static RandomGenerator random(long seed) {
    return GENERATORS.create(seed);
  }
}
