package org.jointwalk.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Verdict;
import org.jointwalk.job.Verdict.Group;
import org.jointwalk.job.Verdict.Sureness;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;

/** Bench words for what nouns say. Stateless but for the map. */
final class Phrases {

  private static final String PROBE = "probe";

  private final PadMap map;

  Phrases(PadMap map) {
    this.map = map;
  }

  static String side(Side side) {
    return side == Side.UPPER ? "upper" : "lower";
  }

  /** A board by its shop name, with its place unless the name tells it. */
  String board(Side side) {
    String name = map.boardNames().getOrDefault(side, side(side) + " board");
    return name.toLowerCase(Locale.ROOT).contains(side(side))
        ? name
        : name + " (" + side(side) + ")";
  }

  /**
   * How sure a group is, where it lies, and at which pads.
   *
   * @param named how many pads are named at most
   */
  String where(Group group, int named) {
    List<String> kinds =
        hidden(group)
            .map(List::of)
            .orElseGet(() -> group.components().stream().map(this::kind).distinct().toList());
    List<String> suspects = kinds.stream().filter(k -> !k.equals(PROBE)).toList();
    String contact = kinds.contains(PROBE) ? ", or only the contact" : "";
    String at = places(group, named);
    if (group.sureness() != Sureness.UNDECIDED) {
      return group.sureness().words() + ": " + suspects.get(0) + at;
    }
    return suspects.size() == 1
        ? "perhaps " + suspects.get(0) + at + contact
        : group.sureness().words() + " " + and(suspects) + at + contact;
  }

  /** One phrase for all functions of a board whose parts do not show. */
  private Optional<String> hidden(Group group) {
    List<String> functions = new ArrayList<>();
    for (Component component : group.components()) {
      if (component instanceof Component.Hidden hidden) {
        functions.add(hidden.function());
      }
    }
    return functions.size() == group.components().size()
            && group.components().get(0) instanceof Component.Hidden hidden
        ? Optional.of(
            "something on the "
                + board(hidden.side())
                + " that the ring does not show ("
                + and(functions)
                + ")")
        : Optional.empty();
  }

  private static String places(Group group, int named) {
    if (group.components().get(0) instanceof Component.NetOf
        || group.components().get(0) instanceof Component.Hidden) {
      return "";
    }
    List<String> bridges = new ArrayList<>();
    for (Component component : group.components()) {
      if (component instanceof Component.Bridge bridge) {
        bridges.add(bridge.a() + "-" + bridge.b());
      }
    }
    List<String> ids = bridges.isEmpty() ? group.positions() : bridges.stream().distinct().toList();
    return ids.isEmpty() ? "" : " at " + ids(ids, named);
  }

  private String kind(Component component) {
    if (component instanceof Component.Joint joint) {
      return side(joint.side()) + " joint";
    }
    if (component instanceof Component.Pad pad) {
      return "pad of the " + board(pad.side());
    }
    if (component instanceof Component.Via) {
      return "path inside the interposer";
    }
    if (component instanceof Component.Bridge bridge) {
      return "bridge on the " + side(bridge.side()) + " side";
    }
    if (component instanceof Component.NetOf net) {
      return "net " + net.net().name() + " of the " + board(net.net().side());
    }
    if (component instanceof Component.Hidden hidden) {
      return "part of the " + board(hidden.side()) + " that the ring does not show";
    }
    return PROBE;
  }

  static String fit(Verdict.Fit fit) {
    return switch (fit) {
      case FITS -> "what was found fits";
      case MAY_FIT -> "what was found may fit";
      case DOES_NOT_FIT -> "what was found does not fit";
      case NOT_SAID -> "was not said";
      case NOTHING_FOUND -> "nothing found so far that explains it";
    };
  }

  /** What a grade means for who reads it. */
  static String meaning(Grade grade) {
    return switch (grade) {
      case GOOD -> "current passed, within the limit";
      case HIGH -> "current passed, above the limit";
      case OPEN -> "no current passed";
      case BRIDGED -> "joined to a neighbour it should not touch";
      case NOT_CONTACTED -> "nothing known: re-seat or clean the probe";
      case MASKED -> "a single fault here would not show";
      case UNRESOLVED -> "current passed, value beyond this fixture";
      case UNDECIDED -> "too close to the limit: measure again";
      case LOST_BY_SPLIT -> "the joint is gone; judged by exclusion";
      case NOT_TESTED -> "nothing was read here";
    };
  }

  static String setUp(String name) {
    return SetUp.named(name).map(SetUp::title).orElse(name);
  }

  static String count(int n, String one, String many) {
    return n + " " + (n == 1 ? one : many);
  }

  /** As a sentence begins. */
  static String capital(String words) {
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  static String and(List<String> words) {
    return joined(words, " and ");
  }

  static String or(List<String> words) {
    return joined(words, " or ");
  }

  private static String joined(List<String> words, String last) {
    int n = words.size();
    return n < 2
        ? String.join("", words)
        : String.join(", ", words.subList(0, n - 1)) + last + words.get(n - 1);
  }

  /** Ids in order, the first ones by name. */
  static String ids(List<String> ids, int named) {
    if (ids.size() <= named) {
      return String.join(", ", ids);
    }
    List<String> parts = new ArrayList<>(ids.subList(0, named));
    String more = "and " + (ids.size() - named) + " more";
    return parts.isEmpty()
        ? count(ids.size(), "pad", "pads")
        : String.join(", ", parts) + " " + more;
  }
}
