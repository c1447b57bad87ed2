package org.jointwalk.saltmarsh;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;

/**
 * Which net lies where, as a designer would lay it: ground along the outer edge, function after
 * function round the ring, the lines of a bus side by side, ground and spare pads in between.
 */
final class Layout {

  /**
   * What lies at a spot.
   *
   * @param pad which pad of its net, from 0
   */
  record Slot(Draft draft, int pad) {}

  private final Map<Spot, Slot> slots = new LinkedHashMap<>();
  private final Set<Draft> drafts = new LinkedHashSet<>();

  Layout(Outline outline, long seed) {
    List<Spot> spots = outline.spots();
    int n = spots.size();
    int ground = share(n, 0.35);
    int rail = share(n, 0.15) == 1 ? 0 : share(n, 0.15);
    int pairs = (int) Math.round(n * 0.04);
    int spare = share(n, 0.05);
    int blocked = share(n, 0.04);
    int single = n - ground - rail - 2 * pairs - spare - blocked;

    Draft earth = new Draft(Ring.GROUND, Draft.Kind.GROUND, "unknown", ground, 0, 0, false);
    List<Draft> rails = Catalogue.rails(rail);
    List<Draft> twos = Catalogue.pairs(pairs);
    List<List<Draft>> buses = new ArrayList<>(Catalogue.singles(single));
    buses.addAll(Catalogue.blocked(blocked));

    // Three of four outer spots are ground, as far as there is ground.
    long outer = spots.stream().filter(spot -> spot.row() == 0).count();
    int outerGround = (int) Math.min(Math.round(outer * 0.75), Math.round(ground * 0.72));
    List<Slot> inner = inOrder(rails, twos, buses, new Random(seed));
    inner = mixed(inner, slotsOf(earth, outerGround, ground), 3);
    inner = mixed(inner, spares(spare), 7);

    int groundGiven = 0;
    int outerSeen = 0;
    int innerGiven = 0;
    for (Spot spot : spots) {
      boolean outside = false;
      if (spot.row() == 0) {
        outside = (outerSeen + 1L) * outerGround / outer > (long) outerSeen * outerGround / outer;
        outerSeen++;
      }
      slots.put(spot, outside ? new Slot(earth, groundGiven++) : inner.get(innerGiven++));
    }
    drafts.add(earth);
    drafts.addAll(rails);
    inner.forEach(slot -> drafts.add(slot.draft()));
  }

  private static int share(int n, double part) {
    return (int) Math.round(n * part);
  }

  private static List<Slot> slotsOf(Draft draft, int from, int to) {
    List<Slot> slots = new ArrayList<>();
    for (int pad = from; pad < to; pad++) {
      slots.add(new Slot(draft, pad));
    }
    return slots;
  }

  private static List<Slot> spares(int count) {
    List<Slot> spares = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      // Every fifth holds the ring in place and carries nothing.
      String name = (i % 5 == 4 ? "ANCHOR_" : "SPARE_") + (i + 1);
      spares.add(new Slot(Draft.of(name, Draft.Kind.SPARE, "unknown"), 0));
    }
    return spares;
  }

  private static List<Slot> inOrder(
      List<Draft> rails, List<Draft> pairs, List<List<Draft>> buses, Random random) {
    List<Slot> all = new ArrayList<>();
    for (String function : Catalogue.SHARES.keySet()) {
      List<List<Slot>> blocks = new ArrayList<>();
      for (Draft rail : rails) {
        if (rail.function().equals(function)) {
          // A long rail comes through in two places.
          int first = rail.pads() > 4 ? rail.pads() / 2 : rail.pads();
          blocks.add(slotsOf(rail, 0, first));
          blocks.add(slotsOf(rail, first, rail.pads()));
        }
      }
      for (Draft pair : pairs) {
        if (pair.function().equals(function)) {
          blocks.add(slotsOf(pair, 0, 2));
        }
      }
      for (List<Draft> bus : buses) {
        if (bus.get(0).function().equals(function)) {
          blocks.add(bus.stream().map(draft -> new Slot(draft, 0)).toList());
        }
      }
      Collections.shuffle(blocks, random);
      blocks.forEach(all::addAll);
    }
    return all;
  }

  /** Spreads some slots evenly among others, the first of them after a few. */
  private static List<Slot> mixed(List<Slot> others, List<Slot> some, int after) {
    List<Slot> all = new ArrayList<>();
    int given = 0;
    for (int i = 0; i < others.size(); i++) {
      all.add(others.get(i));
      long due = (long) (i + 1 + after) * some.size() / (others.size() + after);
      while (given < due) {
        all.add(some.get(given++));
      }
    }
    return all;
  }

  /** What lies at each spot, in order along the ring. */
  Map<Spot, Slot> slots() {
    return Collections.unmodifiableMap(slots);
  }

  /** Every net: ground, rails, then the others in order along the ring. */
  List<Draft> drafts() {
    return List.copyOf(drafts);
  }
}
