package org.jointwalk.files;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Supplier;
import org.jointwalk.stack.Position;

/**
 * Checks the geometry of a ring while its positions are read: no two at one place, and a warning
 * for neighbours that solder bridges easily. Cost is linear in the number of positions, as long as
 * few lie near each other. For one thread and one file.
 */
final class RingCheck {

  /** Nearer than this, a ball bridges to the next one easily. Common practice, no source. */
  static final double BRIDGE_PRONE_MM = 0.2;

  /** No ring has more; the check of a longer list would take minutes. */
  static final int MOST_POSITIONS = 10_000;

  /** Nearer than this, two places are the same one. */
  private static final double SAME_MM = 0.001;

  private final Map<List<Long>, List<Position>> cells = new HashMap<>();
  private final Faults faults;

  /**
   * @param faults of the file
   */
  RingCheck(Faults faults) {
    this.faults = faults;
  }

  /** Where a position stands in a {@link Read}. */
  static String thing(String position) {
    return "position " + position;
  }

  /**
   * Compares a position with those that came before it.
   *
   * @param place where its coordinates stand
   */
  void add(Position position, Supplier<Place> place) {
    long column = Math.round(position.xMm() / BRIDGE_PRONE_MM);
    long row = Math.round(position.yMm() / BRIDGE_PRONE_MM);
    for (long x = column - 1; x <= column + 1; x++) {
      for (long y = row - 1; y <= row + 1; y++) {
        for (Position other : cells.getOrDefault(List.of(x, y), List.of())) {
          compare(position, other, place);
        }
      }
    }
    cells.computeIfAbsent(List.of(column, row), cell -> new ArrayList<>()).add(position);
  }

  private void compare(Position position, Position other, Supplier<Place> place) {
    double apart = position.distanceMm(other);
    String where = JsonOut.shortest(position.xMm()) + ", " + JsonOut.shortest(position.yMm());
    if (apart < SAME_MM) {
      faults.error(
          new Fault(
              place.get(),
              position.id() + " lies where " + other.id() + " lies",
              where,
              "a place of its own for each position",
              "Measure one of the two again; the other is at "
                  + faults.placeOf(thing(other.id()))));
    } else if (apart < BRIDGE_PRONE_MM) {
      faults.warning(
          new Fault(
              place.get(),
              String.format(
                  Locale.ROOT,
                  "%s and %s are only %.3f mm apart, where solder bridges easily",
                  position.id(),
                  other.id(),
                  apart),
              where,
              "usually " + BRIDGE_PRONE_MM + " mm and more between two positions",
              "Check that the coordinates are in millimetres"));
    }
  }
}
