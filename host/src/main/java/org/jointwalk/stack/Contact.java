package org.jointwalk.stack;

/**
 * Where a probe tip lands: a plate's probe over one position of the ring, or an access point.
 *
 * <p>A contact does not say which face it touches; the set-up does.
 */
public sealed interface Contact {

  /** What a technician calls it: the position of a pad, the id of an access point. */
  String id();

  /**
   * A plate's probe at a position.
   *
   * @param plate the plate that carries the probe
   * @param position id of the position
   */
  record Pad(Plate plate, String position) implements Contact {

    @Override
    public String id() {
      return position;
    }
  }

  /**
   * A test point or connector pin.
   *
   * @param point id of the access point
   */
  record Point(String point) implements Contact {

    @Override
    public String id() {
      return point;
    }
  }
}
