package org.jointwalk.files;

import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.stack.AccessPoint;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Side;

/**
 * Finds nets that nothing of the map is on, which is a mistyped name more often than a net.
 * Stateless.
 */
final class Idle {

  private Idle() {}

  static void check(
      Map<NetId, Net> nets,
      Collection<Position> positions,
      Collection<AccessPoint> points,
      List<Load> loads,
      Faults faults) {
    Set<NetId> used = new HashSet<>();
    for (Position position : positions) {
      used.add(position.net(Side.UPPER));
      used.add(position.net(Side.LOWER));
    }
    points.forEach(point -> used.add(point.net()));
    for (Load load : loads) {
      used.add(new NetId(load.side(), load.from()));
      used.add(new NetId(load.side(), load.to()));
    }
    for (NetId net : nets.keySet()) {
      if (!used.contains(net) && !net.name().equals(Field.STAND_IN)) {
        faults.error(
            new Fault(
                faults.placeOf(NetText.thing(net)),
                "no position, access point or load is on this net",
                JsonOut.quoted(net.name()),
                "a net that something is on",
                "Correct the name, or remove the net"));
      }
    }
  }
}
