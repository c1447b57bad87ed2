package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * The host's account of a fixture's slots: what is in each, and until which step it is needed. Not
 * thread-safe.
 */
final class Slots<T> {

  private final List<Optional<T>> contents = new ArrayList<>();
  private final List<Long> needed = new ArrayList<>();

  Slots(int count) {
    for (int i = 0; i < count; i++) {
      contents.add(Optional.empty());
      needed.add(-1L);
    }
  }

  OptionalInt find(T content) {
    int slot = contents.indexOf(Optional.of(content));
    return slot < 0 ? OptionalInt.empty() : OptionalInt.of(slot);
  }

  /** What is in a slot, if it was filled. */
  Optional<T> at(int slot) {
    return contents.get(slot);
  }

  int count() {
    return contents.size();
  }

  /** The slot that was not needed for the longest time, empty when all of them are (M53). */
  OptionalInt idle(long done) {
    int best = -1;
    for (int slot = 0; slot < contents.size(); slot++) {
      if (needed.get(slot) < done && (best < 0 || needed.get(slot) < needed.get(best))) {
        best = slot;
      }
    }
    return best < 0 ? OptionalInt.empty() : OptionalInt.of(best);
  }

  void fill(int slot, T content) {
    contents.set(slot, Optional.of(content));
  }

  /** Keeps a slot as it is until a step has its result. */
  void need(int slot, long step) {
    needed.set(slot, Math.max(needed.get(slot), step));
  }
}
