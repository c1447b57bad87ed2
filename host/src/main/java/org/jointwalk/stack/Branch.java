package org.jointwalk.stack;

import java.util.List;

/**
 * What lies between a contact and the first node that it shares with another contact.
 *
 * @param contact the contact
 * @param touched the node its tip lies on
 * @param chain the components in series, from the tip inwards; empty when the tip lies on shared
 *     metal already
 * @param hub the shared node: a net of a board, a tie of the interposer, or the far land of a via
 */
public record Branch(Contact contact, Node touched, List<Component> chain, Node hub) {

  public Branch {
    chain = List.copyOf(chain);
  }
}
