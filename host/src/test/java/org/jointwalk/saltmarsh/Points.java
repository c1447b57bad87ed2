package org.jointwalk.saltmarsh;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jointwalk.stack.AccessPoint;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;

/** Test points and connector pins: ground, rails and some signals of each board. */
final class Points {

  private static final int GROUNDS = 3;
  private static final int RAILS = 10;
  private static final int SIGNALS = 7;

  private static final Map<Side, List<String>> LANDMARKS =
      Map.of(
          Side.UPPER,
          List.of("aerial clip", "shield corner", "fix aerial", "screen socket", "key flex"),
          Side.LOWER,
          List.of("charge socket", "cell tabs", "loudspeaker pads", "reset hole", "card slot"));

  private static final List<String> FORMS =
      List.of(
          "test point left of the %s",
          "test point right of the %s", "capacitor end below the %s", "third pin beside the %s");

  private Points() {}

  static Map<String, AccessPoint> of(Map<NetId, Net> nets) {
    Map<String, AccessPoint> points = new LinkedHashMap<>();
    for (Side side : Side.values()) {
      List<NetId> reached = new ArrayList<>();
      NetId ground = new NetId(side, Ring.GROUND);
      for (int i = 0; i < GROUNDS; i++) {
        reached.add(ground);
      }
      reached.addAll(spread(nets, side, Role.RAIL, RAILS));
      reached.addAll(spread(nets, side, Role.SIGNAL, SIGNALS));
      List<String> landmarks = LANDMARKS.getOrDefault(side, List.of());
      for (int i = 0; i < reached.size(); i++) {
        String id = String.format(Locale.ROOT, "P%02d", points.size() + 1);
        String form = FORMS.get(i / landmarks.size());
        String place = String.format(Locale.ROOT, form, landmarks.get(i % landmarks.size()));
        points.put(id, new AccessPoint(id, reached.get(i), place));
      }
    }
    return points;
  }

  /** Some nets of a role that can be read at direct current, evenly from all there are. */
  private static List<NetId> spread(Map<NetId, Net> nets, Side side, Role role, int wanted) {
    List<NetId> all =
        nets.values().stream()
            .filter(net -> net.id().side() == side && net.role() == role && net.dcPath())
            .map(Net::id)
            .toList();
    int count = Math.min(wanted, all.size());
    List<NetId> some = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      some.add(all.get(i * all.size() / count));
    }
    return some;
  }
}
