package org.jointwalk.diagnose;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import org.jointwalk.job.Region;
import org.jointwalk.job.Seen;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Side;

/** Bench words for what a verdict speaks of; ids are never changed. Stateless but for the map. */
final class Words {

  private static final int NAMED = 12;

  private final PadMap map;

  Words(PadMap map) {
    this.map = map;
  }

  static String side(Side side) {
    return side == Side.UPPER ? "upper" : "lower";
  }

  /** A board by its shop name, with its place in the stack when the name does not tell it. */
  String board(Side side) {
    String name = map.boardNames().get(side);
    if (name == null || name.isBlank()) {
      return side(side) + " board";
    }
    return name.toLowerCase(Locale.ROOT).contains(side(side))
        ? name
        : name + " (" + side(side) + ")";
  }

  String region(Region region) {
    return switch (region) {
      case UPPER_BOARD -> board(Side.UPPER);
      case LOWER_BOARD -> board(Side.LOWER);
      case UPPER_JOINTS -> "upper joints";
      case LOWER_JOINTS -> "lower joints";
      case INTERPOSER -> "interposer";
    };
  }

  /** What kind of component, without its position. */
  String kind(Component component) {
    if (component instanceof Component.Joint joint) {
      return side(joint.side()) + " joint";
    }
    if (component instanceof Component.Pad pad) {
      return side(pad.side()) + " pad";
    }
    if (component instanceof Component.Via) {
      return "via";
    }
    if (component instanceof Component.Bridge bridge) {
      return "bridge on the " + side(bridge.side()) + " side";
    }
    if (component instanceof Component.NetOf net) {
      return "net of the " + board(net.net().side());
    }
    if (component instanceof Component.Hidden hidden) {
      return "part of the "
          + board(hidden.side())
          + " that serves "
          + hidden.function()
          + " and cannot be seen from the ring";
    }
    return "probe contact";
  }

  static String look(Seen.Look look) {
    return switch (look) {
      case DRY -> "dry";
      case TORN -> "torn";
      case SMEARED -> "smeared";
      case BALL_MISSING -> "ball missing";
      case BALL_LOW -> "ball low";
      case FINE -> "fine";
    };
  }

  static String ohms(double value) {
    return new BigDecimal(value, new MathContext(2)).stripTrailingZeros().toPlainString() + " ohm";
  }

  /** Ids as the map orders them. */
  List<String> ordered(Collection<String> ids) {
    return map.positions().keySet().stream().filter(ids::contains).toList();
  }

  /** Ids in order, the first dozen by name. */
  static String ids(List<String> ids) {
    if (ids.size() <= NAMED) {
      return String.join(", ", ids);
    }
    int more = ids.size() - NAMED;
    return String.join(", ", ids.subList(0, NAMED)) + " and " + more + " more";
  }

  /** The parts of a choice: a, b or c. */
  static String or(List<String> words) {
    return joined(words, " or ");
  }

  /** The parts of a list: a, b and c. */
  static String and(List<String> words) {
    return joined(words, " and ");
  }

  private static String joined(List<String> words, String last) {
    int n = words.size();
    return n < 2
        ? String.join("", words)
        : String.join(", ", words.subList(0, n - 1)) + last + words.get(n - 1);
  }

  /** A number of things, in the singular for one. */
  static String count(int n, String one, String many) {
    return n + " " + (n == 1 ? one : many);
  }

  static String capitals(String words) {
    return words.toUpperCase(Locale.ROOT);
  }

  static String sentence(String words) {
    return words.isEmpty()
        ? words
        : words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }
}
