package org.jointwalk.drawing;

import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.Set;
import org.jointwalk.drawing.Layout.Spot;
import org.jointwalk.stack.PadMap;

/** What every picture of a ring has around its pads: names at the corners, a scale, the view. */
record Frame(Svg svg, PadMap map, View view, Palette palette, Layout layout) {

  private static final double BAR_MM = 5;

  void begin(String title, double wide, double high) {
    svg.picture(wide, high, map.device() + ", " + title + ", " + view.words());
  }

  /** Names the pads at the four corners, so that a technician can find north on the board. */
  void corners(Set<String> failing) {
    Set<String> corners = new LinkedHashSet<>();
    for (int i = 0; i < 4; i++) {
      Spot corner = new Spot(i % 2 == 0 ? 0 : layout.width(), i < 2 ? 0 : layout.height());
      layout.spots().keySet().stream()
          .min(Comparator.comparingDouble(p -> layout.spot(p).to(corner)))
          .ifPresent(corners::add);
    }
    for (String position : corners) {
      Spot spot = layout.spot(position);
      boolean left = spot.x() < layout.width() / 2;
      boolean top = spot.y() < layout.height() / 2;
      svg.words(
          "text",
          position,
          "x",
          spot.x() + (left ? -14 : 14),
          "y",
          spot.y() + (top ? -16 : 28),
          "font-size",
          17,
          "font-weight",
          failing.contains(position) ? "bold" : "normal",
          "text-anchor",
          left ? "start" : "end",
          "fill",
          palette.ink());
    }
  }

  void scale(String title) {
    double y = layout.height() - 14;
    double x = Layout.MARGIN;
    double length = BAR_MM * layout.unitsPerMm();
    svg.leaf(
        "path",
        "d",
        "M" + Svg.number(x) + " " + Svg.number(y - 6) + "v6h" + Svg.number(length) + "v-6",
        "fill",
        "none",
        "stroke",
        palette.ink(),
        "stroke-width",
        2.0);
    line(Svg.number(BAR_MM) + " mm", x + length + 10, y, "start", "normal");
    line(view.words(), layout.width() - Layout.MARGIN, y, "end", "normal");
    line(title, layout.width() / 2, layout.height() / 2, "middle", "bold");
  }

  void line(String words, double x, double y, String anchor, String weight) {
    svg.words(
        "text",
        words,
        "x",
        x,
        "y",
        y,
        "font-size",
        18,
        "font-weight",
        weight,
        "text-anchor",
        anchor,
        "fill",
        palette.ink());
  }
}
