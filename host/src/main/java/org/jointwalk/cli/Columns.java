package org.jointwalk.cli;

import java.util.ArrayList;
import java.util.List;

/** Rows of text in columns that line up, for letters of one width. For one thread and one table. */
final class Columns {

  private static final String GAP = "  ";

  private final List<List<String>> rows = new ArrayList<>();
  private final List<Integer> widths = new ArrayList<>();

  /** Adds a row; rows need not be of one length. */
  void row(String... cells) {
    for (int i = 0; i < cells.length; i++) {
      int width = cells[i].codePointCount(0, cells[i].length());
      if (i == widths.size()) {
        widths.add(width);
      } else {
        widths.set(i, Math.max(widths.get(i), width));
      }
    }
    rows.add(List.of(cells));
  }

  /** The rows without blanks at their ends; a column that is empty throughout takes no room. */
  List<String> lines() {
    List<String> lines = new ArrayList<>();
    for (List<String> row : rows) {
      StringBuilder line = new StringBuilder();
      for (int i = 0; i < row.size(); i++) {
        String cell = row.get(i);
        int width = widths.get(i);
        if (width > 0) {
          line.append(cell)
              .append(" ".repeat(width - cell.codePointCount(0, cell.length())))
              .append(GAP);
        }
      }
      lines.add(line.toString().stripTrailing());
    }
    return lines;
  }
}
