package org.jointwalk.job;

import org.jointwalk.stack.NetId;

/**
 * A net of a board that does not read as a good board's does.
 *
 * @param net the net
 * @param fault what kind of difference
 * @param reason reading, reference and rule in one sentence
 */
public record BoardFinding(NetId net, Fault fault, String reason) {

  /** How a net differs. */
  public enum Fault {
    /** Far less resistance to ground or to another net than a good board has. */
    SHORTED,
    /** Another drop or resistance than a good board has. */
    DIFFERENT
  }
}
