package org.jointwalk.drawing;

import java.util.LinkedHashMap;
import java.util.Map;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;

/**
 * Where the pads of a ring lie in a picture. Units are chosen so that neighbours keep a readable
 * distance; the ring is to scale. Immutable.
 */
final class Layout {

  /** Distance of neighbouring pads in units. */
  static final double PITCH = 22;

  static final double MARGIN = 70;

  /** What a ring without neighbours is drawn at, in units for a millimetre. */
  private static final double LONE_SCALE = 36;

  /** A place in the picture, in units from its upper left corner. */
  record Spot(double x, double y) {

    double to(Spot other) {
      return Math.hypot(x - other.x, y - other.y);
    }
  }

  /** The edge of the ring that a pad lies at. */
  enum Edge {
    TOP,
    BOTTOM,
    LEFT,
    RIGHT;

    boolean lying() {
      return this == TOP || this == BOTTOM;
    }
  }

  private final double unitsPerMm;
  private final double width;
  private final double height;
  private final double depth;
  private final Map<String, Spot> spots = new LinkedHashMap<>();

  Layout(PadMap map, View view) {
    double pitch = pitch(map);
    unitsPerMm = pitch > 0 ? PITCH / pitch : LONE_SCALE;
    double left = Double.POSITIVE_INFINITY;
    double right = Double.NEGATIVE_INFINITY;
    double near = Double.POSITIVE_INFINITY;
    double far = Double.NEGATIVE_INFINITY;
    for (Position p : map.positions().values()) {
      left = Math.min(left, p.xMm());
      right = Math.max(right, p.xMm());
      near = Math.min(near, p.yMm());
      far = Math.max(far, p.yMm());
    }
    width = (right - left) * unitsPerMm + 2 * MARGIN;
    height = (far - near) * unitsPerMm + 2 * MARGIN;
    double deepest = 0;
    for (Position p : map.positions().values()) {
      double x = MARGIN + (view == View.ABOVE ? p.xMm() - left : right - p.xMm()) * unitsPerMm;
      Spot spot = new Spot(x, MARGIN + (far - p.yMm()) * unitsPerMm);
      spots.put(p.id(), spot);
      deepest = Math.max(deepest, toEdge(spot, edge(spot)));
    }
    depth = deepest;
  }

  /** The usual distance of a pad to its nearest neighbour in millimetre; 0 for a lone pad. */
  private static double pitch(PadMap map) {
    double[] nearest =
        map.positions().values().stream()
            .mapToDouble(
                p ->
                    map.positions().values().stream()
                        .filter(q -> !q.id().equals(p.id()))
                        .mapToDouble(p::distanceMm)
                        .filter(mm -> mm > 0)
                        .min()
                        .orElse(0))
            .sorted()
            .toArray();
    return nearest[nearest.length / 2];
  }

  double width() {
    return width;
  }

  double height() {
    return height;
  }

  double unitsPerMm() {
    return unitsPerMm;
  }

  /** How far the ring reaches inwards from its outline. */
  double depth() {
    return depth;
  }

  /** Every position in map order. */
  Map<String, Spot> spots() {
    return spots;
  }

  /** Where a position lies, which the map has. */
  Spot spot(String position) {
    Spot spot = spots.get(position);
    if (spot == null) {
      throw new IllegalArgumentException("the map has no position " + position);
    }
    return spot;
  }

  Edge edge(Spot spot) {
    Edge nearest = Edge.TOP;
    for (Edge edge : Edge.values()) {
      if (toEdge(spot, edge) < toEdge(spot, nearest)) {
        nearest = edge;
      }
    }
    return nearest;
  }

  private double toEdge(Spot spot, Edge edge) {
    return switch (edge) {
      case TOP -> spot.y() - MARGIN;
      case BOTTOM -> height - MARGIN - spot.y();
      case LEFT -> spot.x() - MARGIN;
      case RIGHT -> width - MARGIN - spot.x();
    };
  }
}
