package org.jointwalk.simulator;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.jointwalk.job.Action;
import org.jointwalk.stack.SetUp;

/**
 * Whoever stands at a virtual fixture: puts into it what the host says is there, and closes it. By
 * itself it moves the lid only where a technician would have, between two passes. Not thread-safe.
 */
final class Hand {

  private static final SetUp EMPTY = SetUp.named("empty").orElseThrow();

  private final VirtualFixture fixture;
  private final Function<SetUp, List<Action>> done;
  private Optional<SetUp> inside = Optional.empty();
  private boolean finished;

  /**
   * @param done what was done to the device until a set-up is clamped
   */
  Hand(VirtualFixture fixture, Function<SetUp, List<Action>> done) {
    this.fixture = fixture;
    this.done = done;
  }

  /** A run came to its end by itself: before the next pass the parts are taken out. */
  void finished() {
    finished = true;
  }

  /** Another run began: if it does not come to its end, the parts stay where they are. */
  void begun() {
    finished = false;
  }

  /** Whether the next pass finds the parts seated again. */
  boolean wantsToReseat() {
    return finished && inside.isPresent();
  }

  /** Whether the lid has to be opened to clamp what is declared. */
  boolean wantsTo(Optional<SetUp> declared) {
    return wantsToReseat()
        || (inside.isPresent() && declared.isPresent() && !declared.equals(inside));
  }

  /** The lid closes over what lies there: a new seating. */
  void close() {
    finished = false;
    if (inside.isPresent()) {
      fixture.reseat();
    }
  }

  /**
   * The lid closes over what is declared.
   *
   * @param declared empty for a name that nobody knows, and then everything stays
   */
  void close(Optional<SetUp> declared) {
    if (declared.isEmpty() || declared.equals(inside)) {
      close();
    } else {
      clamp(declared.get());
    }
  }

  /** Sees to it that something is clamped; what lay there before the start needs no lid. */
  void lay(Optional<SetUp> declared) {
    if (inside.isEmpty()) {
      clamp(declared.orElse(EMPTY));
    }
  }

  private void clamp(SetUp setUp) {
    finished = false;
    List<Action> actions = List.copyOf(done.apply(setUp));
    boolean possible = setUp.possible().contains(History.attachment(actions));
    fixture.clamp(possible ? setUp : EMPTY, actions);
    inside = Optional.of(setUp);
  }
}
