package org.jointwalk.job;

import org.jointwalk.quantity.Ohms;

/**
 * How a resistance was held against its limit, as sealed with the grade.
 *
 * @param low lower end of the coverage interval, in ohm; the part below zero is kept, so that the
 *     width can be told, although no resistance lies there
 * @param high upper end of it, in ohm
 * @param level share of such intervals that hold the truth
 * @param guard distance that is kept from the limit
 * @param risk of a wrong call of a value that lies exactly at the limit less or more the guard
 */
public record Decision(double low, double high, double level, Ohms guard, double risk) {

  public Decision {
    if (!(low <= high)) {
      throw new IllegalArgumentException("an interval from " + low + " to " + high + " is none");
    }
    if (!(level > 0 && level < 1) || !(risk > 0 && risk < 1)) {
      throw new IllegalArgumentException(
          "level and risk lie between 0 and 1, not " + level + " and " + risk);
    }
  }
}
