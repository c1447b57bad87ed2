package org.jointwalk.simulator;

/** How the simulated time of a fixture is spent in the time of whoever watches. */
@FunctionalInterface
public interface Pace {

  /** No waiting: results come as fast as they are computed. */
  Pace FREE = deviceSeconds -> {};

  /**
   * Called on the running thread after each batch, before it is handed over.
   *
   * @param deviceSeconds what the batch would have taken on hardware
   */
  void spend(double deviceSeconds);
}
