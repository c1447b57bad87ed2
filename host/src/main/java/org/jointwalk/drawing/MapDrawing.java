package org.jointwalk.drawing;

import java.util.EnumMap;
import java.util.Map;
import java.util.Set;
import org.jointwalk.drawing.Layout.Spot;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;

/**
 * The ring of a map as SVG, to scale, with what each pad of one board is for: a small square is
 * ground, a diamond a rail, a disc a signal, a hatched disc is not used. Names stand at the
 * corners. Immutable.
 */
public final class MapDrawing {

  private static final double LEGEND_COLUMN = 230;

  private final PadMap map;
  private final View view;
  private final Palette palette;
  private final Layout layout;

  /**
   * @param map the model
   * @param view from where
   * @param palette colours
   */
  public MapDrawing(PadMap map, View view, Palette palette) {
    this.map = map;
    this.view = view;
    this.palette = palette;
    layout = new Layout(map, view);
  }

  /**
   * Draws one board's pads.
   *
   * @return one {@code svg} element in the SVG name space, without an XML declaration
   */
  public String svg(Side side) {
    String title = map.boardNames().getOrDefault(side, "");
    double wide = Math.max(layout.width(), 4 * LEGEND_COLUMN + Layout.MARGIN);
    double high = layout.height() + 70;
    Svg svg = new Svg();
    Frame frame = new Frame(svg, map, view, palette, layout);
    Marks marks = new Marks(svg, palette);
    frame.begin(title, wide, high);
    svg.leaf("rect", "width", wide, "height", high, "fill", palette.ground());
    frame.corners(Set.of());
    Map<Role, Integer> counts = new EnumMap<>(Role.class);
    for (Position position : map.positions().values()) {
      Net net = map.netAt(position.id(), side);
      counts.merge(net.role(), 1, Integer::sum);
      svg.open("g", "data-position", position.id(), "data-role", net.role().name());
      svg.words("title", position.id() + ": " + net.id().name() + ", " + words(net.role()));
      marks.draw(net.role(), layout.spot(position.id()));
      svg.close();
    }
    frame.scale(title);
    double x = Layout.MARGIN;
    for (Map.Entry<Role, Integer> entry : counts.entrySet()) {
      marks.draw(entry.getKey(), new Spot(x, layout.height() + 28));
      frame.line(
          entry.getValue() + "  " + words(entry.getKey()),
          x + 20,
          layout.height() + 34,
          "start",
          "normal");
      x += LEGEND_COLUMN;
    }
    svg.close();
    return svg.xml();
  }

  private static String words(Role role) {
    return switch (role) {
      case GROUND -> "ground";
      case RAIL -> "rail";
      case SIGNAL -> "signal";
      case UNUSED -> "not used";
    };
  }
}
