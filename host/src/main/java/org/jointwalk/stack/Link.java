package org.jointwalk.stack;

import java.util.Optional;
import org.jointwalk.quantity.Ohms;

/**
 * A conductor between two nodes of the model.
 *
 * @param component what can be at fault in it; empty for a tie and for the copper to a point
 * @param ohms resistance when sound
 */
public record Link(Optional<Component> component, Node a, Node b, Ohms ohms) {}
