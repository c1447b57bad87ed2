package org.jointwalk.campaign;

import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.job.Action;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;

/**
 * A model in a set-up in a fixture: what many stacks are clamped into.
 *
 * @param map the model, with its references
 * @param fixture wired to it
 * @param setUp what is clamped
 */
record Stand(PadMap map, FixtureMap fixture, SetUp setUp) {

  /** What a position hangs on, as far as seeing it is concerned. */
  enum Hang {
    SINGLE("single"),
    PAIR("pair"),
    RAIL("rail"),
    GROUND("ground"),
    NO_DC_PATH("noDcPath"),
    UNUSED("unused"),
    BARE("bare");

    private final String word;

    Hang(String word) {
      this.word = word;
    }

    String word() {
      return word;
    }
  }

  /** What is in the fixture, with the usual variant of the interposer. */
  Assembly assembly() {
    return new Assembly(map, map.interposers().get(0), setUp);
  }

  /** The fewest actions after which the set-up can exist. */
  List<Action> actions() {
    Action upperLetGo = new Action.Split(Side.UPPER);
    if (setUp.bare()) {
      return List.of(upperLetGo, new Action.Lift());
    }
    boolean alone = setUp.joints().isEmpty();
    boolean upper = setUp.boards().contains(Side.UPPER);
    return List.of(alone == upper ? upperLetGo : new Action.Split(Side.LOWER));
  }

  /** The board in the fixture, empty for the bare interposer. */
  Optional<Side> side() {
    return setUp.boards().stream().findFirst();
  }

  /** What a position hangs on in this set-up. */
  Hang hang(String position) {
    if (side().isEmpty()) {
      return Hang.BARE;
    }
    Side side = side().orElseThrow();
    Net net = map.netAt(position, side);
    return switch (net.role()) {
      case GROUND -> Hang.GROUND;
      case RAIL -> Hang.RAIL;
      case UNUSED -> Hang.UNUSED;
      case SIGNAL -> {
        if (!net.dcPath()) {
          yield Hang.NO_DC_PATH;
        }
        long pads =
            map.positions().values().stream().filter(p -> p.net(side).equals(net.id())).count();
        yield pads == 1 ? Hang.SINGLE : Hang.PAIR;
      }
    };
  }

  /** Map, fixture and set-up in words. */
  String words() {
    return map.device() + ", " + fixture.name() + ", " + setUp.name();
  }
}
