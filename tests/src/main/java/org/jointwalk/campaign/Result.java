package org.jointwalk.campaign;

import java.util.List;

/**
 * What a campaign found.
 *
 * @param figures in the order to be printed
 * @param notes what lies behind the figures, a line each: every case that missed a bar, and times
 */
record Result(List<Figure> figures, List<String> notes) {

  Result {
    figures = List.copyOf(figures);
    notes = List.copyOf(notes);
  }

  /** Whether every bar is reached. */
  boolean holds() {
    return figures.stream().allMatch(Figure::holds);
  }
}
