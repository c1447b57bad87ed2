package org.jointwalk.drawing;

import org.jointwalk.drawing.Layout.Spot;
import org.jointwalk.job.Grade;
import org.jointwalk.stack.Role;

/**
 * One mark for each grade, told apart by shape alone: a small full disc is connected, a triangle
 * high, a crossed ring open, a full diamond bridged; hatched is what was not seen. Not thread-safe.
 */
final class Marks {

  private static final double SMALL = 5.5;
  private static final double LARGE = 9.5;

  private static final double HATCHED = 7.5;
  private static final double[] CHORDS = {-4.2, 0, 4.2};

  private final Svg svg;
  private final Palette palette;

  Marks(Svg svg, Palette palette) {
    this.svg = svg;
    this.palette = palette;
  }

  /** Draws the mark of a grade. */
  void draw(Grade grade, Spot at) {
    switch (grade) {
      case GOOD -> disc(at, SMALL, palette.good(), palette.good(), 1);
      case UNRESOLVED -> {
        disc(at, SMALL, palette.ground(), palette.good(), 2);
        disc(at, 2, palette.good(), palette.good(), 0.5);
      }
      case HIGH -> shape(at, palette.high(), palette.ink(), 0, -LARGE - 1, LARGE, 8, -LARGE, 8);
      case OPEN -> {
        disc(at, LARGE - 0.5, palette.ground(), palette.open(), 3);
        line(at, -4.5, palette.open());
        line(at, 4.5, palette.open());
      }
      case BRIDGED ->
          shape(at, palette.bridged(), palette.ground(), 0, -LARGE, LARGE, 0, 0, LARGE, -LARGE, 0);
      case NOT_CONTACTED ->
          svg.leaf(
              "rect",
              "x",
              at.x() - 7,
              "y",
              at.y() - 7,
              "width",
              14,
              "height",
              14,
              "fill",
              palette.ground(),
              "stroke",
              palette.doubt(),
              "stroke-width",
              2.5,
              "stroke-dasharray",
              "4 3");
      case UNDECIDED -> {
        shape(at, palette.ground(), palette.doubt(), 0, -LARGE, LARGE, 0, 0, LARGE, -LARGE, 0);
        svg.words(
            "text",
            "?",
            "x",
            at.x(),
            "y",
            at.y() + 4.5,
            "font-size",
            13,
            "font-weight",
            "bold",
            "text-anchor",
            "middle",
            "fill",
            palette.doubt());
      }
      case MASKED -> hatched(at, 0);
      case LOST_BY_SPLIT -> hatched(at, 45, -45);
      case NOT_TESTED -> hatched(at, 45);
    }
  }

  /** Draws the mark of what a pad is for. */
  void draw(Role role, Spot at) {
    switch (role) {
      case GROUND ->
          svg.leaf(
              "rect",
              "x",
              at.x() - 5,
              "y",
              at.y() - 5,
              "width",
              10,
              "height",
              10,
              "fill",
              palette.ink());
      case RAIL -> shape(at, palette.high(), palette.ink(), 0, -8, 8, 0, 0, 8, -8, 0);
      case SIGNAL -> disc(at, SMALL, palette.good(), palette.good(), 1);
      case UNUSED -> hatched(at, 45);
    }
  }

  /** Metal between two pads. */
  void bar(Spot a, Spot b) {
    svg.leaf(
        "line",
        "x1",
        a.x(),
        "y1",
        a.y(),
        "x2",
        b.x(),
        "y2",
        b.y(),
        "stroke",
        palette.bridged(),
        "stroke-width",
        7.0);
  }

  /**
   * A disc filled with parallel strokes, each a chord of it: printers draw chords alike, and
   * patterns each in their own way.
   */
  private void hatched(Spot at, double... degrees) {
    StringBuilder chords = new StringBuilder();
    for (double angle : degrees) {
      double dx = Math.cos(Math.toRadians(angle));
      double dy = -Math.sin(Math.toRadians(angle));
      for (double off : CHORDS) {
        double half = Math.sqrt(HATCHED * HATCHED - off * off);
        chords
            .append('M')
            .append(Svg.number(at.x() - off * dy - half * dx))
            .append(' ')
            .append(Svg.number(at.y() + off * dx - half * dy))
            .append('L')
            .append(Svg.number(at.x() - off * dy + half * dx))
            .append(' ')
            .append(Svg.number(at.y() + off * dx + half * dy));
      }
    }
    disc(at, HATCHED, palette.ground(), palette.quiet(), 1.2);
    svg.leaf("path", "d", chords, "stroke", palette.ink(), "stroke-width", 1.0, "fill", "none");
  }

  private void disc(Spot at, double radius, String fill, String stroke, double width) {
    svg.leaf(
        "circle",
        "cx",
        at.x(),
        "cy",
        at.y(),
        "r",
        radius,
        "fill",
        fill,
        "stroke",
        stroke,
        "stroke-width",
        width);
  }

  private void line(Spot at, double slope, String stroke) {
    svg.leaf(
        "line",
        "x1",
        at.x() - 4.5,
        "y1",
        at.y() - slope,
        "x2",
        at.x() + 4.5,
        "y2",
        at.y() + slope,
        "stroke",
        stroke,
        "stroke-width",
        2.6);
  }

  private void shape(Spot at, String fill, String stroke, double... corners) {
    StringBuilder points = new StringBuilder();
    for (int i = 0; i < corners.length; i += 2) {
      points
          .append(i == 0 ? "" : " ")
          .append(Svg.number(at.x() + corners[i]))
          .append(',')
          .append(Svg.number(at.y() + corners[i + 1]));
    }
    svg.leaf(
        "polygon",
        "points",
        points,
        "fill",
        fill,
        "stroke",
        stroke,
        "stroke-width",
        1.8,
        "stroke-linejoin",
        "round");
  }
}
