package org.jointwalk.drawing;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jointwalk.drawing.Layout.Edge;
import org.jointwalk.drawing.Layout.Spot;

/**
 * Puts names inside the ring, each as near to its pad as the others allow, none over another. Cost
 * is that of sorting. Immutable.
 */
final class Labels {

  static final double FONT = 19;

  private static final double LETTER = 0.62 * FONT;
  private static final double ROW = FONT + 5;
  private static final double OFF = 40;

  /**
   * A name with its place.
   *
   * @param anchor {@code start}, {@code middle} or {@code end}: what lies at {@code at}
   */
  record Label(String position, Spot pad, Spot at, String anchor) {}

  private final List<Label> placed = new ArrayList<>();
  private final int left;

  /**
   * @param positions to name
   */
  Labels(Layout layout, Collection<String> positions) {
    Map<Edge, List<String>> byEdge = new EnumMap<>(Edge.class);
    int longest = 1;
    for (String position : positions) {
      byEdge
          .computeIfAbsent(layout.edge(layout.spot(position)), e -> new ArrayList<>())
          .add(position);
      longest = Math.max(longest, position.length());
    }
    double wide = longest * LETTER + LETTER;
    int out = 0;
    for (Map.Entry<Edge, List<String>> entry : byEdge.entrySet()) {
      out += place(layout, entry.getKey(), entry.getValue(), wide);
    }
    left = out;
  }

  List<Label> placed() {
    return placed;
  }

  /** How many names found no room. */
  int left() {
    return left;
  }

  private int place(Layout layout, Edge edge, List<String> positions, double wide) {
    boolean lying = edge.lying();
    double inner = Layout.MARGIN + layout.depth();
    double gap = lying ? wide : ROW;
    double length = lying ? layout.width() : layout.height();
    double from = lying ? inner + OFF / 2 + wide / 2 : inner + OFF + ROW;
    double to = length - from;
    int room = to < from ? 0 : (int) ((to - from) / gap) + 1;
    List<String> named =
        positions.stream()
            .sorted(Comparator.comparingDouble(p -> along(layout.spot(p), lying)))
            .limit(room)
            .toList();
    double[] places =
        spread(
            named.stream().mapToDouble(p -> along(layout.spot(p), lying)).toArray(), gap, from, to);
    for (int i = 0; i < named.size(); i++) {
      Spot pad = layout.spot(named.get(i));
      placed.add(new Label(named.get(i), pad, at(layout, edge, places[i], inner), anchor(edge)));
    }
    return positions.size() - named.size();
  }

  private static Spot at(Layout layout, Edge edge, double along, double inner) {
    return switch (edge) {
      case TOP -> new Spot(along, inner + OFF);
      case BOTTOM -> new Spot(along, layout.height() - inner - OFF + FONT / 2);
      case LEFT -> new Spot(inner + OFF, along);
      case RIGHT -> new Spot(layout.width() - inner - OFF, along);
    };
  }

  private static String anchor(Edge edge) {
    return edge.lying() ? "middle" : edge == Edge.LEFT ? "start" : "end";
  }

  private static double along(Spot spot, boolean lying) {
    return lying ? spot.x() : spot.y();
  }

  /**
   * Places in order, at least {@code gap} apart and within the bounds, with the least sum of
   * squared distances from where they would like to be: pooled neighbours move as one.
   */
  static double[] spread(double[] wanted, double gap, double from, double to) {
    int n = wanted.length;
    double[] mean = new double[n];
    int[] size = new int[n];
    int blocks = 0;
    for (int i = 0; i < n; i++) {
      mean[blocks] = wanted[i] - i * gap;
      size[blocks] = 1;
      blocks++;
      while (blocks > 1 && mean[blocks - 2] > mean[blocks - 1]) {
        int both = size[blocks - 2] + size[blocks - 1];
        mean[blocks - 2] =
            (mean[blocks - 2] * size[blocks - 2] + mean[blocks - 1] * size[blocks - 1]) / both;
        size[blocks - 2] = both;
        blocks--;
      }
    }
    double[] places = new double[n];
    int at = 0;
    for (int b = 0; b < blocks; b++) {
      double low = Math.max(from, Math.min(to - (n - 1) * gap, mean[b]));
      for (int k = 0; k < size[b]; k++) {
        places[at] = low + at * gap;
        at++;
      }
    }
    return places;
  }
}
