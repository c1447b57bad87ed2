package org.jointwalk.job;

import org.jointwalk.stack.Contact;

/**
 * A voltage that was there without our doing.
 *
 * @param seating number of the seating
 * @param contact against ground
 * @param volts unloaded
 * @param loaded with about 10 kilohm; NaN when it was not read
 */
public record Residual(int seating, Contact contact, double volts, double loaded) {}
