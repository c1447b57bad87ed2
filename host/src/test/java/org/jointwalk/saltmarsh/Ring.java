package org.jointwalk.saltmarsh;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Limits;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;

/**
 * Invented pad maps of any size: a rectangular ring with about 35 % ground, 15 % rails, 8 % pairs,
 * 5 % spare pads, 4 % signals behind a capacitor, and the rest single signals. The same arguments
 * give the same map for ever.
 */
public final class Ring {

  /** Name of the ground net of both boards. */
  public static final String GROUND = "GROUND";

  /** Distance between neighbouring positions of a row, in millimetres. */
  public static final double PITCH_MM = Outline.PITCH_MM;

  private Ring() {}

  /**
   * A map without references.
   *
   * @param positions at least eight columns of them
   * @param rows across the ring
   * @param seed of what lies where and what hangs on it
   */
  public static PadMap of(int positions, int rows, long seed) {
    return named("Practice ring " + positions, positions, rows, seed);
  }

  static PadMap named(String device, int positions, int rows, long seed) {
    Outline outline = new Outline(positions, rows);
    Layout layout = new Layout(outline, seed);
    Wiring wiring = new Wiring(layout.drafts(), seed);
    Map<String, Position> places = new LinkedHashMap<>();
    Map<String, Ohms> overrides = new LinkedHashMap<>();
    layout
        .slots()
        .forEach(
            (spot, slot) -> {
              places.put(
                  spot.id(),
                  new Position(
                      spot.id(),
                      spot.xMm(),
                      spot.yMm(),
                      slot.draft().net(Side.UPPER, slot.pad()).name(),
                      slot.draft().net(Side.LOWER, slot.pad()).name()));
              // The pads that carry the charge current must be better than the others.
              if (slot.draft().parted() && slot.draft().kind() == Draft.Kind.RAIL) {
                overrides.put(spot.id(), new Ohms(0.3));
              }
            });
    return new PadMap(
        device,
        "1",
        Map.of(Side.UPPER, "radio board", Side.LOWER, "main board"),
        List.of(
            new Interposer("thin", 0.8, false, new Ohms(0.001), arcs(outline, layout, 1)),
            new Interposer("thick", 1.0, true, new Ohms(0.0013), arcs(outline, layout, 0))),
        places,
        wiring.nets(),
        wiring.loads(),
        Points.of(wiring.nets()),
        new Limits(new Ohms(2), new Ohms(0.5), overrides),
        List.of());
  }

  /**
   * Two arcs of edge plating with gaps at two opposite corners.
   *
   * @param first the corner with the first gap
   */
  private static List<Tie> arcs(Outline outline, Layout layout, int first) {
    int columns = outline.columns();
    int half = Math.max(1, (int) Math.round(columns * 0.025));
    List<Tie> ties = new ArrayList<>();
    for (int corner = first; corner < 4; corner += 2) {
      int from = outline.corners().get(corner) + half;
      int next = outline.corners().get((corner + 2) % 4) - half;
      int length = Math.floorMod(next - from, columns);
      List<String> tied = new ArrayList<>();
      for (int step = 0; step < length; step++) {
        int column = (from + step) % columns;
        layout
            .slots()
            .forEach(
                (spot, slot) -> {
                  if (spot.column() == column
                      && spot.row() == 0
                      && slot.draft().kind() == Draft.Kind.GROUND) {
                    tied.add(spot.id());
                  }
                });
      }
      if (tied.size() > 1) {
        ties.add(new Tie(Tie.Where.EDGE, tied, new Ohms(0.002)));
      }
    }
    return ties;
  }
}
