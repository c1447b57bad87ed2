package org.jointwalk.spice;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.stack.AccessPoint;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Face;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;

/**
 * Every conductor that a set-up leaves in the fixture, and where the probes touch, read from the
 * records of the map one by one. Immutable once made.
 */
final class Copper {

  /** A good joint; the model gives none, and any limit is far above it. */
  private static final double JOINT_OHMS = 0.0006;

  /** A trace that the map gives no resistance belongs to a pad that is not used. */
  private static final double LEAST_OHMS = 0.01;

  /**
   * A conductor.
   *
   * @param component what can be at fault in it, empty for what the vocabulary of faults leaves out
   */
  record Strip(Optional<Component> component, String a, String b, double ohms) {}

  private final List<Strip> strips = new ArrayList<>();
  private final Map<Contact, String> tips = new LinkedHashMap<>();

  Copper(PadMap map, Interposer interposer, SetUp setUp) {
    for (Position position : map.positions().values()) {
      String id = position.id();
      for (Side side : Side.values()) {
        if (setUp.boards().contains(side)) {
          NetId net = position.net(side);
          lay(new Component.Pad(side, id), pad(side, id), net(net), map.net(net).trace().value());
        }
        if (setUp.joints().contains(side)) {
          lay(new Component.Joint(side, id), pad(side, id), land(side, id), JOINT_OHMS);
        }
      }
      if (setUp.interposer()) {
        lay(
            new Component.Via(id),
            land(Side.UPPER, id),
            land(Side.LOWER, id),
            interposer.via().value());
      }
      for (Plate plate : Plate.values()) {
        setUp
            .touches(plate)
            .ifPresent(face -> tips.put(new Contact.Pad(plate, id), touched(face, id)));
      }
    }
    if (setUp.interposer()) {
      for (int i = 0; i < interposer.ties().size(); i++) {
        layTie(interposer.ties().get(i), "tie " + i);
      }
    }
    for (AccessPoint point : map.points().values()) {
      if (setUp.points() && setUp.boards().contains(point.net().side())) {
        tips.put(new Contact.Point(point.id()), "point " + point.id());
        lay("point " + point.id(), net(point.net()), map.net(point.net()).trace().value());
      }
    }
  }

  private void lay(Component component, String a, String b, double ohms) {
    strips.add(new Strip(Optional.of(component), a, b, Math.max(ohms, LEAST_OHMS)));
  }

  private void lay(String a, String b, double ohms) {
    strips.add(new Strip(Optional.empty(), a, b, Math.max(ohms, LEAST_OHMS)));
  }

  private void layTie(Tie tie, String metal) {
    for (String id : tie.positions()) {
      if (tie.where() != Tie.Where.BOTTOM) {
        lay(land(Side.UPPER, id), metal, tie.ohms().value());
      }
      if (tie.where() != Tie.Where.TOP) {
        lay(land(Side.LOWER, id), metal, tie.ohms().value());
      }
    }
  }

  private static String touched(Face face, String id) {
    return switch (face) {
      case UPPER_PAD -> pad(Side.UPPER, id);
      case TOP_LAND -> land(Side.UPPER, id);
      case BOTTOM_LAND -> land(Side.LOWER, id);
      case LOWER_PAD -> pad(Side.LOWER, id);
    };
  }

  /** The node of a board's pad. */
  static String pad(Side side, String position) {
    return side + " pad " + position;
  }

  /** The node of a land of the interposer. */
  static String land(Side side, String position) {
    return side + " land " + position;
  }

  /** The node where the pads of a net meet. */
  static String net(NetId net) {
    return net(net.side(), net.name());
  }

  /** The node of a net, or one between two parts of a board. */
  static String net(Side side, String name) {
    return side + " net " + name;
  }

  List<Strip> strips() {
    return List.copyOf(strips);
  }

  /** The node under each contact that touches anything. */
  Map<Contact, String> tips() {
    return Collections.unmodifiableMap(tips);
  }
}
