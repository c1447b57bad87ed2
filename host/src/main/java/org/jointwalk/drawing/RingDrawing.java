package org.jointwalk.drawing;

import java.util.Arrays;
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
    List<Grade> shown = Arrays.stream(Grade.values()).filter(grades::containsValue).toList();
    double wide = Math.max(layout.width(), LEGEND_COLUMN + 2 * Layout.MARGIN);
    int columns = Math.max(1, (int) ((wide - Layout.MARGIN) / LEGEND_COLUMN));
    int rows = (shown.size() + columns - 1) / columns;
    double high = layout.height() + (rows + 1) * LEGEND_ROW + 20;

    Svg svg = new Svg();
    Marks marks = new Marks(svg, palette);
    Frame frame = new Frame(svg, map, view, palette, layout);
    frame.begin(title, wide, high);
    svg.leaf("rect", "width", wide, "height", high, "fill", palette.ground());
    patches(svg, failing);
    frame.corners(failing);
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
    frame.scale(title);
    legend(frame, marks, findings, shown, columns);
    svg.close();
    return svg.xml();
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

  private void legend(Frame frame, Marks marks, Findings findings, List<Grade> shown, int columns) {
    Map<Grade, Integer> counts = findings.counts();
    for (int i = 0; i < shown.size(); i++) {
      double x = Layout.MARGIN + (i % columns) * LEGEND_COLUMN;
      double y = layout.height() + 34 + Math.floorDiv(i, columns) * LEGEND_ROW;
      marks.draw(shown.get(i), new Spot(x, y - 6));
      frame.line(
          counts.get(shown.get(i)) + "  " + shown.get(i).words(),
          x + 20,
          y,
          "start",
          shown.get(i).isFault() ? "bold" : "normal");
    }
  }
}
