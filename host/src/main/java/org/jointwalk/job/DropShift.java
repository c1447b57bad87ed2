package org.jointwalk.job;

import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.NetId;

/**
 * How far the drop of a net lies from its reference at the lowest current, after what all nets of
 * the board have in common was taken off.
 *
 * @param seating number of the seating
 * @param contact it was read at
 * @param net the net
 * @param volts above the reference, in volt
 */
public record DropShift(int seating, Contact contact, NetId net, Estimate volts) {}
