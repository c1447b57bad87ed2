package org.jointwalk.campaign;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.jointwalk.saltmarsh.Specimens;
import org.jointwalk.simulator.Truth;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.simulator.Visibility.Sight;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.PadMap;

/**
 * What the simulator can see of each position of a sound stack.
 *
 * @param visible positions of which every part shows when it is open
 * @param masked positions with a part that would show if the interposer tied nothing together
 * @param dark positions with a part that would not show even then
 */
record Coverage(Set<String> visible, Set<String> masked, Set<String> dark) {

  Coverage {
    visible = Set.copyOf(visible);
    masked = Set.copyOf(masked);
    dark = Set.copyOf(dark);
  }

  /** Opens every part of every position, one at a time: seconds for a ring of 420. */
  static Coverage of(Stand stand) {
    Truth whole = truth(stand, stand.map());
    Truth cut = truth(stand, untied(stand.map()));
    Set<String> tied =
        stand.assembly().interposer().ties().stream()
            .flatMap(tie -> tie.positions().stream())
            .collect(Collectors.toSet());
    Set<String> visible = new LinkedHashSet<>();
    Set<String> masked = new LinkedHashSet<>();
    Set<String> dark = new LinkedHashSet<>();
    for (String id : stand.map().positions().keySet()) {
      List<Component> parts = stand.assembly().present(id);
      if (parts.stream().allMatch(part -> shows(whole, part))) {
        visible.add(id);
      } else if (tied.contains(id) && parts.stream().allMatch(part -> shows(cut, part))) {
        masked.add(id);
      } else {
        dark.add(id);
      }
    }
    return new Coverage(visible, masked, dark);
  }

  private static boolean shows(Truth sound, Component part) {
    return sound.with(part, new Condition.Open()).visibility(part).sight() == Sight.SEEN;
  }

  private static Truth truth(Stand stand, PadMap map) {
    VirtualFixture fixture =
        new VirtualFixture(
            map, Specimens.good(map, 1), stand.fixture(), VirtualFixture.Conditions.CALM);
    fixture.clamp(stand.setUp(), stand.actions());
    return fixture.truth();
  }

  private static PadMap untied(PadMap map) {
    return new PadMap(
        map.device(),
        map.revision(),
        map.boardNames(),
        map.interposers().stream()
            .map(
                i -> new Interposer(i.variant(), i.thicknessMm(), i.mirrored(), i.via(), List.of()))
            .toList(),
        map.positions(),
        map.nets(),
        map.loads(),
        map.points(),
        map.limits(),
        map.references());
  }
}
