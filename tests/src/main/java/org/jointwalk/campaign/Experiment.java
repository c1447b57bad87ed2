package org.jointwalk.campaign;

/** One campaign. Stateless, so that the same seed and scale give the same result for ever. */
interface Experiment {

  /** As the command line writes it. */
  String name();

  /** What it asks, in one line. */
  String about();

  /**
   * Runs it on all cores there are; their number changes the time and nothing else.
   *
   * @param seed of everything that is drawn; any value
   */
  Result run(long seed, Scale scale);
}
