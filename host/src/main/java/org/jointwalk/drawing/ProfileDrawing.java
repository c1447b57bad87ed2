package org.jointwalk.drawing;

import java.util.List;
import java.util.Optional;
import org.jointwalk.drawing.Layout.Spot;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;

/**
 * The resistances along the ring, in the order of the map, as SVG: a stroke from two standard
 * uncertainties below each value to two above, a tick at its limit, and rows at top and bottom for
 * what has no value. The scale is logarithmic. Cost is linear in the positions. Immutable.
 */
public final class ProfileDrawing {

  private static final double LEFT = 90;
  private static final double TOP = 58;
  private static final double HIGH = 260;
  private static final double BELOW = 74;
  private static final double STEP = 2.6;
  private static final double LEAST_WIDE = 1040;
  private static final double TICK = 17;

  /** Nothing below a milliohm tells a joint from another. */
  private static final double LEAST = 1e-3;

  private static final double MOST = 100;

  private final Palette palette;

  /**
   * @param palette colours
   */
  public ProfileDrawing(Palette palette) {
    this.palette = palette;
  }

  /**
   * Draws the values of a pass.
   *
   * @param title what is in the fixture, in words
   * @return one {@code svg} element in the SVG name space, without an XML declaration
   */
  public String svg(String title, Findings findings) {
    List<Finding> all = findings.positions();
    double step = Math.max(STEP, LEAST_WIDE / Math.max(1, all.size()));
    double wide = LEFT + all.size() * step + 30;
    double high = TOP + HIGH + BELOW;
    Svg svg = new Svg();
    Marks marks = new Marks(svg, palette);
    svg.picture(wide, high, "Resistance along the ring, " + title);
    svg.leaf("rect", "width", wide, "height", high, "fill", palette.ground());
    axis(svg, wide);
    for (int i = 0; i < all.size(); i++) {
      draw(svg, marks, all.get(i), LEFT + (i + 0.5) * step, step);
    }
    ends(svg, all, wide);
    svg.close();
    return svg.xml();
  }

  private void axis(Svg svg, double wide) {
    for (double ohms = LEAST; ohms <= MOST * 1.01; ohms *= 10) {
      double y = y(ohms);
      svg.leaf(
          "line",
          "x1",
          LEFT,
          "y1",
          y,
          "x2",
          wide - 30,
          "y2",
          y,
          "stroke",
          palette.quiet(),
          "stroke-width",
          0.6);
      words(svg, label(ohms), LEFT - 8, y + 5, "end");
    }
    words(svg, "ohm, with two standard uncertainties; the dash is the limit", LEFT, 20, "start");
  }

  private static String label(double ohms) {
    return ohms < 0.99 ? Svg.number(ohms * 1e3) + " m" : Svg.number(ohms);
  }

  private void draw(Svg svg, Marks marks, Finding finding, double x, double step) {
    svg.open("g", "data-position", finding.position(), "data-grade", finding.grade().name());
    svg.words("title", finding.position() + ": " + finding.reason());
    Optional<Estimate> ohms = finding.ohms();
    finding.limit().map(Ohms::value).ifPresent(limit -> limit(svg, limit, x, step));
    if (ohms.isPresent()) {
      double value = ohms.get().value();
      double twice = 2 * ohms.get().u();
      boolean fault = finding.grade().isFault();
      svg.leaf(
          "line",
          "x1",
          x,
          "y1",
          y(value - twice),
          "x2",
          x,
          "y2",
          y(value + twice),
          "stroke",
          fault ? palette.open() : palette.good(),
          "stroke-width",
          fault ? 2.4 : Math.min(1.6, step * 0.6));
      if (fault) {
        marks.draw(finding.grade(), new Spot(x, y(value)));
        words(svg, finding.position(), x + 14, y(value) + 5, "start");
      } else {
        svg.leaf("circle", "cx", x, "cy", y(value), "r", 1.6, "fill", palette.ink());
      }
    } else if (finding.grade().isFault()) {
      marks.draw(finding.grade(), new Spot(x, TOP - 16));
    } else if (!finding.grade().isConnected()) {
      // Neighbours make one hatched band.
      svg.leaf(
          "line",
          "x1",
          x - step / 2,
          "y1",
          TOP + HIGH + 4 + TICK,
          "x2",
          x + step / 2,
          "y2",
          TOP + HIGH + 4,
          "stroke",
          palette.ink(),
          "stroke-width",
          1.1);
    }
    svg.close();
  }

  private void limit(Svg svg, double limit, double x, double step) {
    svg.leaf(
        "line",
        "x1",
        x - step / 2,
        "y1",
        y(limit),
        "x2",
        x + step / 2,
        "y2",
        y(limit),
        "stroke",
        palette.high(),
        "stroke-width",
        2.0);
  }

  private void ends(Svg svg, List<Finding> all, double wide) {
    double y = TOP + HIGH + TICK + 4;
    words(svg, "not seen", LEFT - 8, y - 3, "end");
    words(svg, "no path", LEFT - 8, TOP - 11, "end");
    if (!all.isEmpty()) {
      words(svg, all.get(0).position(), LEFT, y + 22, "start");
      words(svg, all.get(all.size() - 1).position(), wide - 30, y + 22, "end");
    }
  }

  /** Height of a resistance; what lies outside the scale is drawn at its end. */
  private static double y(double ohms) {
    double share = Math.log(Math.min(MOST, Math.max(LEAST, ohms)) / LEAST) / Math.log(MOST / LEAST);
    return TOP + HIGH * (1 - share);
  }

  private void words(Svg svg, String words, double x, double y, String anchor) {
    svg.words(
        "text",
        words,
        "x",
        x,
        "y",
        y,
        "font-size",
        15,
        "text-anchor",
        anchor,
        "fill",
        palette.ink());
  }
}
