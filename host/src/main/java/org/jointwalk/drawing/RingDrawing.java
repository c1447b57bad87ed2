package org.jointwalk.drawing;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.drawing.Layout.Spot;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.stack.PadMap;

/**
 * The ring of one model as SVG, to scale: a mark for each pad, failing ones enlarged and named,
 * those that lie together outlined, what was not seen hatched. Cost is quadratic in the failing
 * pads and in the pads of the map. Immutable.
 */
public final class RingDrawing {

  /** Failing pads nearer than this many pitches lie together. */
  private static final double TOGETHER = 2.3;

  private static final double LEGEND_ROW = 30;
  private static final double LEGEND_COLUMN = 352;
  private static final double BAR_MM = 5;

  private final PadMap map;
  private final View view;
  private final Palette palette;
  private final Layout layout;

  /**
   * @param map the model
   * @param view from where
   * @param palette colours
   */
  public RingDrawing(PadMap map, View view, Palette palette) {
    this.map = map;
    this.view = view;
    this.palette = palette;
    layout = new Layout(map, view);
  }

  /**
   * Draws what a pass found.
   *
   * @param title what is in the fixture, in words
   * @param findings of this map
   * @return one {@code svg} element in the SVG name space, without an XML declaration
   * @throws IllegalArgumentException when a finding is of a position that the map does not have
   */
  public String svg(String title, Findings findings) {
    Map<String, Grade> grades = new LinkedHashMap<>();
    for (Finding finding : findings.positions()) {
      grades.put(finding.position(), finding.grade());
    }
    Set<String> failing = new LinkedHashSet<>();
    grades.forEach(
        (position, grade) -> {
          if (grade.isFault()) {
            failing.add(position);
          }
        });
    findings.bridges().forEach(b -> failing.addAll(List.of(b.a(), b.b())));
    Labels labels = new Labels(layout, failing);
    List<Grade> shown =
        java.util.Arrays.stream(Grade.values()).filter(grades::containsValue).toList();
    double wide = Math.max(layout.width(), LEGEND_COLUMN + 2 * Layout.MARGIN);
    int columns = Math.max(1, (int) ((wide - Layout.MARGIN) / LEGEND_COLUMN));
    int rows = (shown.size() + columns - 1) / columns;
    double high = layout.height() + (rows + 1) * LEGEND_ROW + 20;

    Svg svg = new Svg();
    Marks marks = new Marks(svg, palette);
    begin(svg, title, wide, high);
    svg.leaf("rect", "width", wide, "height", high, "fill", palette.ground());
    patches(svg, failing);
    corners(svg, failing);
    for (BridgeFinding bridge : findings.bridges()) {
      marks.bar(layout.spot(bridge.a()), layout.spot(bridge.b()));
    }
    for (Finding finding : findings.positions()) {
      Spot spot = layout.spot(finding.position());
      svg.open("g", "data-position", finding.position(), "data-grade", finding.grade().name());
      svg.words(
          "title", finding.position() + ": " + finding.grade().words() + ". " + finding.reason());
      marks.draw(finding.grade(), spot);
      svg.close();
    }
    names(svg, labels);
    scale(svg, title);
    legend(svg, marks, findings, shown, columns);
    svg.close();
    return svg.xml();
  }

  private void begin(Svg svg, String title, double wide, double high) {
    svg.open(
        "svg",
        "xmlns",
        "http://www.w3.org/2000/svg",
        "viewBox",
        "0 0 " + Svg.number(wide) + " " + Svg.number(high),
        "width",
        wide,
        "height",
        high,
        "role",
        "img",
        "font-family",
        "sans-serif");
    svg.words("title", map.device() + ", " + title + ", " + view.words());
  }

  /** An outline around failing pads that lie together: discs in the patch's colour that overlap. */
  private void patches(Svg svg, Set<String> failing) {
    for (List<Spot> patch :
        Patches.of(failing.stream().map(layout::spot).toList(), TOGETHER * Layout.PITCH)) {
      StringBuilder path = new StringBuilder();
      for (Spot spot : patch) {
        path.append("M").append(Svg.number(spot.x())).append(' ').append(Svg.number(spot.y()));
        path.append("h0");
        for (Spot other : patch) {
          if (other.to(spot) <= TOGETHER * Layout.PITCH) {
            path.append("M").append(Svg.number(spot.x())).append(' ').append(Svg.number(spot.y()));
            path.append("L")
                .append(Svg.number(other.x()))
                .append(' ')
                .append(Svg.number(other.y()));
          }
        }
      }
      outline(svg, path, 43, palette.quiet());
      outline(svg, path, 40, palette.patch());
    }
  }

  private static void outline(Svg svg, StringBuilder path, double width, String colour) {
    svg.leaf(
        "path",
        "d",
        path,
        "fill",
        "none",
        "stroke",
        colour,
        "stroke-width",
        width,
        "stroke-linecap",
        "round",
        "stroke-linejoin",
        "round");
  }

  /** Names the pads at the four corners, so that a technician can find north on the board. */
  private void corners(Svg svg, Set<String> failing) {
    Set<String> corners = new LinkedHashSet<>();
    for (int i = 0; i < 4; i++) {
      Spot corner = new Spot(i % 2 == 0 ? 0 : layout.width(), i < 2 ? 0 : layout.height());
      layout.spots().keySet().stream()
          .min(java.util.Comparator.comparingDouble(p -> layout.spot(p).to(corner)))
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

  private void names(Svg svg, Labels labels) {
    for (Labels.Label label : labels.placed()) {
      Spot at = label.at();
      boolean middle = "middle".equals(label.anchor());
      boolean above = label.pad().y() < at.y();
      double towards = "start".equals(label.anchor()) ? -5 : 5;
      svg.leaf(
          "line",
          "x1",
          label.pad().x(),
          "y1",
          label.pad().y(),
          "x2",
          at.x() + (middle ? 0 : towards),
          "y2",
          middle ? at.y() + (above ? -Labels.FONT : 5) : at.y() - Labels.FONT / 3,
          "stroke",
          palette.ink(),
          "stroke-width",
          1.2);
      svg.words(
          "text",
          label.position(),
          "x",
          at.x(),
          "y",
          at.y(),
          "font-size",
          Labels.FONT,
          "font-weight",
          "bold",
          "text-anchor",
          label.anchor(),
          "fill",
          palette.ink());
    }
    if (labels.left() > 0) {
      svg.words(
          "text",
          labels.left() + " more failing pads are marked but not named here",
          "x",
          layout.width() / 2,
          "y",
          layout.height() / 2 + 40,
          "font-size",
          Labels.FONT,
          "text-anchor",
          "middle",
          "fill",
          palette.ink());
    }
  }

  private void scale(Svg svg, String title) {
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
    line(svg, Svg.number(BAR_MM) + " mm", x + length + 10, y, "start", "normal");
    line(svg, view.words(), layout.width() - Layout.MARGIN, y, "end", "normal");
    line(svg, title, layout.width() / 2, layout.height() / 2, "middle", "bold");
  }

  private void legend(Svg svg, Marks marks, Findings findings, List<Grade> shown, int columns) {
    Map<Grade, Integer> counts = findings.counts();
    for (int i = 0; i < shown.size(); i++) {
      double x = Layout.MARGIN + (i % columns) * LEGEND_COLUMN;
      double y = layout.height() + 34 + Math.floorDiv(i, columns) * LEGEND_ROW;
      marks.draw(shown.get(i), new Spot(x, y - 6));
      line(
          svg,
          counts.get(shown.get(i)) + "  " + shown.get(i).words(),
          x + 20,
          y,
          "start",
          shown.get(i).isFault() ? "bold" : "normal");
    }
  }

  private void line(Svg svg, String words, double x, double y, String anchor, String weight) {
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
