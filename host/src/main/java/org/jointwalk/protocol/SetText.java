package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** Says a set of channels in the fewest bytes: anew, or as a change of another. Stateless. */
final class SetText {

  private static final int CHANGE_HEADER = 7;

  private SetText() {}

  /**
   * Messages that fill a slot.
   *
   * @param channels not empty, ascending
   * @param slots what the fixture has in its slots until then
   */
  static List<Streamed> fill(long run, int slot, Set<Integer> channels, Slots<Set<Integer>> slots) {
    List<Streamed> anew = bits(run, slot, new ArrayList<>(channels));
    int size = anew.stream().mapToInt(message -> message.payload().size()).sum();
    Optional<Streamed> change = Optional.empty();
    for (int base = 0; base < slots.count(); base++) {
      Set<Integer> changed = difference(slots.at(base), channels);
      int changeSize = CHANGE_HEADER + 2 * changed.size();
      if (slots.at(base).isPresent()
          && changed.size() <= Streamed.SetChange.MOST
          && changeSize < size) {
        change = Optional.of(new Streamed.SetChange(run, slot, base, List.copyOf(changed)));
        size = changeSize;
      }
    }
    return change.map(List::of).orElse(anew);
  }

  private static Set<Integer> difference(Optional<Set<Integer>> base, Set<Integer> channels) {
    Set<Integer> before = base.orElse(Set.of());
    Set<Integer> changed = new TreeSet<>(before);
    changed.addAll(channels);
    changed.removeIf(channel -> before.contains(channel) && channels.contains(channel));
    return changed;
  }

  private static List<Streamed> bits(long run, int slot, List<Integer> channels) {
    List<Streamed> messages = new ArrayList<>();
    int at = 0;
    while (at < channels.size()) {
      int first = channels.get(at) / 8 * 8;
      int limit = first + 8 * Streamed.SetBits.MOST_BYTES;
      byte[] bits = new byte[Streamed.SetBits.MOST_BYTES];
      int used = 0;
      for (; at < channels.size() && channels.get(at) < limit; at++) {
        int bit = channels.get(at) - first;
        bits[bit / 8] |= (byte) (1 << (bit % 8));
        used = bit / 8 + 1;
      }
      messages.add(
          new Streamed.SetBits(run, slot, !messages.isEmpty(), first, Bytes.of(bits, 0, used)));
    }
    return messages;
  }
}
