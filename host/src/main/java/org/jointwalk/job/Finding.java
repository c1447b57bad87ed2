package org.jointwalk.job;

import java.util.List;
import java.util.Optional;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Component;

/**
 * What one pass says of one position.
 *
 * @param position its id
 * @param grade the judgement
 * @param ohms resistance of what was in the path, when it was resolved
 * @param limit that it was judged against, when it was judged by resistance
 * @param seatings clampings in which it was read
 * @param confirmed whether an open or high stands on more than one seating's word
 * @param detectable smallest resistance that would have been seen, when the value itself was not
 * @param among components that can be at fault together; empty when nothing is
 * @param reason evidence and rule in one sentence
 * @param decision interval and guard, when it was judged by resistance
 */
public record Finding(
    String position,
    Grade grade,
    Optional<Estimate> ohms,
    Optional<Ohms> limit,
    int seatings,
    boolean confirmed,
    Optional<Ohms> detectable,
    List<Component> among,
    String reason,
    Optional<Decision> decision) {

  public Finding {
    among = List.copyOf(among);
  }

  /** The same with another reason. */
  public Finding because(String other) {
    return new Finding(
        position, grade, ohms, limit, seatings, confirmed, detectable, among, other, decision);
  }

  /** A finding that no resistance was held against a limit for. */
  public Finding(
      String position,
      Grade grade,
      Optional<Estimate> ohms,
      Optional<Ohms> limit,
      int seatings,
      boolean confirmed,
      Optional<Ohms> detectable,
      List<Component> among,
      String reason) {
    this(
        position,
        grade,
        ohms,
        limit,
        seatings,
        confirmed,
        detectable,
        among,
        reason,
        Optional.empty());
  }
}
