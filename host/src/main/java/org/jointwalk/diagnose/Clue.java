package org.jointwalk.diagnose;

import java.util.List;
import java.util.Optional;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.NetId;

/**
 * Something that a pass found wrong.
 *
 * @param pass the pass
 * @param fault what is wrong
 * @param positions where, in map order
 * @param among the parts that can be at fault together
 * @param confirmed whether it stands on more than one clamping's word
 * @param ohms what was read, when it was resolved
 * @param limit that it was judged against
 */
record Clue(
    GradedPass pass,
    Fault fault,
    List<String> positions,
    List<Part> among,
    boolean confirmed,
    Optional<Estimate> ohms,
    Optional<Ohms> limit) {

  /** Whether a net is among the parts. */
  boolean isAbout(NetId net) {
    return among.stream().anyMatch(p -> p.component().equals(new Component.NetOf(net)));
  }
}
