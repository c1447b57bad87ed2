package org.jointwalk.job;

import java.util.List;
import java.util.Optional;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Contact;

/**
 * What one seating's readings say of the path behind one contact.
 *
 * @param seating number of the seating
 * @param contact the contact
 * @param evidence whether current passed
 * @param ohms resistance of the path with this seating's contact taken off at its typical value;
 *     empty when it is not resolved alone
 * @param sharedWith the other contact, when {@code ohms} is the sum of two paths
 * @param byDrop whether {@code ohms} is the excess over a reference drop
 * @param partners contacts it was read against
 * @param consistent false when repeated readings contradict each other
 * @param unstable whether the points of one reading scattered more than noise explains: a contact
 *     or a joint that did not hold still
 */
public record PathEstimate(
    int seating,
    Contact contact,
    Evidence evidence,
    Optional<Estimate> ohms,
    Optional<Contact> sharedWith,
    boolean byDrop,
    List<Contact> partners,
    boolean consistent,
    boolean unstable) {

  public PathEstimate {
    partners = List.copyOf(partners);
  }

  /** A path that held still. */
  public PathEstimate(
      int seating,
      Contact contact,
      Evidence evidence,
      Optional<Estimate> ohms,
      Optional<Contact> sharedWith,
      boolean byDrop,
      List<Contact> partners,
      boolean consistent) {
    this(seating, contact, evidence, ohms, sharedWith, byDrop, partners, consistent, false);
  }

  /** Whether current passed. */
  public enum Evidence {
    /** A path was seen. */
    CONDUCTS,
    /** No path, although a partner is proven good or the far side needs none. */
    NO_PATH,
    /** No path, and no partner of this seating is proven good. */
    NO_PROVEN_PARTNER
  }
}
