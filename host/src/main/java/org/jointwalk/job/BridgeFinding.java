package org.jointwalk.job;

import org.jointwalk.quantity.Estimate;

/**
 * Two positions that are joined and should not be.
 *
 * @param a the id that comes first in alphabetical order
 * @param b the other id
 * @param ohms what joins them
 */
public record BridgeFinding(String a, String b, Estimate ohms) {

  public BridgeFinding {
    if (a.compareTo(b) >= 0) {
      throw new IllegalArgumentException("a bridge names two positions in order, not " + a + b);
    }
  }
}
