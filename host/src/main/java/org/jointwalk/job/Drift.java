package org.jointwalk.job;

import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Contact;

/**
 * A step that was repeated through a scan and read otherwise each time by more than noise explains.
 *
 * @param seating number of the seating
 * @param a one contact of the step
 * @param b the other
 * @param span between its smallest and its largest reading
 * @param u what that adds to every resistance of the seating, as a standard uncertainty in ohm
 */
public record Drift(int seating, Contact a, Contact b, Ohms span, double u) {}
