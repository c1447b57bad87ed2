package org.jointwalk.spice;

import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.PadMap;

/**
 * A device at the bench.
 *
 * @param map its model
 * @param defects what is wrong with it
 * @param seed of how it differs from others of its model
 * @param celsius its temperature; a junction drops about 2 mV less for each degree
 */
record Handset(PadMap map, Defects defects, long seed, double celsius) {

  /** The variant inside: the map's first. */
  Interposer interposer() {
    return map.interposers().get(0);
  }
}
