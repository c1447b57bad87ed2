package org.jointwalk.job;

import java.util.List;
import org.jointwalk.stack.Contact;

/**
 * Something that a pass does not know yet.
 *
 * @param need what would answer it
 * @param contacts those it is about; for a pair, two
 * @param against the other group, for a question between two groups; else empty
 */
public record Question(Need need, List<Contact> contacts, List<Contact> against) {

  public Question {
    contacts = List.copyOf(contacts);
    against = List.copyOf(against);
  }

  /** A question about single contacts or a pair. */
  public Question(Need need, List<Contact> contacts) {
    this(need, contacts, List.of());
  }

  /** What would answer a question; rounds of a pass follow this order. */
  public enum Need {
    /** Whether it is safe to source anything. */
    SAFETY,
    /** The first look at every path. */
    PATH,
    /** Another partner in the same seating. */
    PARTNER,
    /** Whether two contacts that should be apart are. */
    ISOLATION,
    /** Which pair of a joined group it is. */
    LOCALISE,
    /** The same again after opening and closing the lid. */
    RESEAT
  }
}
