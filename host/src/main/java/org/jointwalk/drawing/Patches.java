package org.jointwalk.drawing;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jointwalk.drawing.Layout.Spot;

/** Puts spots together that lie near each other, directly or through others. Stateless. */
final class Patches {

  private Patches() {}

  /**
   * The groups of at least two spots.
   *
   * @param spots no two at one place
   * @param reach largest distance of neighbours
   */
  static List<List<Spot>> of(List<Spot> spots, double reach) {
    Set<Spot> left = new LinkedHashSet<>(spots);
    List<List<Spot>> patches = new ArrayList<>();
    while (!left.isEmpty()) {
      Deque<Spot> edge = new ArrayDeque<>(List.of(left.iterator().next()));
      left.remove(edge.peek());
      List<Spot> patch = new ArrayList<>();
      while (!edge.isEmpty()) {
        Spot spot = edge.remove();
        patch.add(spot);
        List<Spot> near = left.stream().filter(s -> s.to(spot) <= reach).toList();
        near.forEach(left::remove);
        edge.addAll(near);
      }
      if (patch.size() > 1) {
        patches.add(patch);
      }
    }
    return patches;
  }
}
