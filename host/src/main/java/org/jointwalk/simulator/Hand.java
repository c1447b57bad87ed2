package org.jointwalk.simulator;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.jointwalk.job.Action;
import org.jointwalk.stack.SetUp;

/**
 * Whoever stands at a virtual fixture: puts into it what the host says is there, and closes it. By
 * itself it moves the lid only where a technician must have: when another set-up is declared than
 * lies there, or something was done to the parts since they were laid in. A host that goes away and
 * comes back, however often, is no reason. Not thread-safe.
 */
final class Hand {

  private static final SetUp EMPTY = SetUp.named("empty").orElseThrow();

  private final VirtualFixture fixture;
  private final Function<SetUp, List<Action>> done;
  private Optional<SetUp> inside = Optional.empty();
  private List<Action> actions = List.of();

  /**
   * @param done what was done to the device until a set-up is clamped
   */
  Hand(VirtualFixture fixture, Function<SetUp, List<Action>> done) {
    this.fixture = fixture;
    this.done = done;
  }

  /**
   * Whether the lid has to be opened to clamp what is declared.
   *
   * @param declared empty for a name that nobody knows, and then everything stays
   */
  boolean wantsTo(Optional<SetUp> declared) {
    return inside.isPresent()
        && declared.isPresent()
        && (!declared.equals(inside) || !List.copyOf(done.apply(declared.get())).equals(actions));
  }

  /** The lid closes over what lies there: a new seating. */
  void close() {
    if (inside.isPresent()) {
      fixture.reseat();
    }
  }

  /** Sees to it that something is clamped; what lay there before the start needs no lid. */
  void lay(Optional<SetUp> declared) {
    if (inside.isEmpty()) {
      clamp(declared.orElse(EMPTY));
    }
  }

  /** The lid closes over other parts, or over parts that were worked on. */
  void clamp(SetUp setUp) {
    actions = List.copyOf(done.apply(setUp));
    boolean possible = setUp.possible().contains(History.attachment(actions));
    fixture.clamp(possible ? setUp : EMPTY, actions);
    inside = Optional.of(setUp);
  }
}
