package org.jointwalk.saltmarsh;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The geometry of a rectangular ring: four strips of {@code rows} by some columns, each strip
 * starting one step after the last, so that every corner is cut off and three neighbourhoods lead
 * round it. Positions are numbered column by column, clockwise, from the outer edge inwards.
 */
final class Outline {

  /** Distance between neighbouring positions of a row. */
  static final double PITCH_MM = 0.6;

  private final List<Spot> spots = new ArrayList<>();
  private final List<Integer> corners = new ArrayList<>();
  private final int columns;

  /**
   * @param positions how many; what does not fill a column is left out of the last one
   * @param rows across the ring
   */
  Outline(int positions, int rows) {
    columns = (positions + rows - 1) / rows;
    if (rows < 1 || columns < 8) {
      throw new IllegalArgumentException(
          "a ring needs eight columns, not " + positions + " positions in " + rows + " rows");
    }
    // Handhelds are longer than wide; the inside must stay open to the depth of both rows.
    int wide = Math.max(2, (int) Math.round(columns * 0.31));
    int deep = (columns - 2 * wide + 1) / 2;
    int[] lengths = {wide, deep, wide, columns - 2 * wide - deep};
    int digits = Math.max(3, Integer.toString(positions).length());
    int dx = 1;
    int dy = 0;
    int x = 0;
    int y = rows - 1;
    int column = 0;
    for (int length : lengths) {
      corners.add(column);
      for (int step = 0; step < length; step++) {
        for (int row = 0; row < rows && spots.size() < positions; row++) {
          int out = rows - 1 - row;
          spots.add(
              new Spot(
                  "N" + String.format(Locale.ROOT, "%0" + digits + "d", spots.size() + 1),
                  column,
                  row,
                  millimetres(x + out * dy),
                  millimetres(y - out * dx)));
        }
        column++;
        x += dx;
        y += dy;
      }
      // A quarter turn clockwise, seen with y growing away from the viewer and the ring from above.
      int turned = -dy;
      dy = dx;
      dx = turned;
    }
  }

  private static double millimetres(int pitches) {
    return Math.round(pitches * PITCH_MM * 100) / 100.0;
  }

  /** Every place, in order. */
  List<Spot> spots() {
    return List.copyOf(spots);
  }

  /** Columns along the ring. */
  int columns() {
    return columns;
  }

  /** The column in which each of the four strips begins. */
  List<Integer> corners() {
    return List.copyOf(corners);
  }
}
