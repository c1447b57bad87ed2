package org.jointwalk.stack;

/**
 * One place on the ring. It has a pad on each of four faces.
 *
 * @param id as the map writes it, for example {@code N014}
 * @param xMm millimetres to the right, seen from above the closed stack
 * @param yMm millimetres away from the viewer, seen from above the closed stack
 * @param upperNet net of the upper board's pad
 * @param lowerNet net of the lower board's pad
 */
public record Position(String id, double xMm, double yMm, String upperNet, String lowerNet) {

  public Position {
    if (!Double.isFinite(xMm) || !Double.isFinite(yMm)) {
      throw new IllegalArgumentException("position " + id + " needs finite coordinates");
    }
  }

  /** The net of this position's pad on a board. */
  public NetId net(Side side) {
    return new NetId(side, side == Side.UPPER ? upperNet : lowerNet);
  }

  /** Distance between two positions in millimetres. */
  public double distanceMm(Position other) {
    return Math.hypot(xMm - other.xMm, yMm - other.yMm);
  }
}
