/**
 * The care of a fixture outside of any job: its switches are zeroed on the shorting plate, and it
 * is looked over with nothing in it and on the plate.
 *
 * <p>Start with {@link org.jointwalk.upkeep.Upkeep}. {@code Run} keeps every reading before the
 * fixture goes on, {@code ZeroFit} makes a zero of them, {@code Culprits} finds which relay it is,
 * {@code Trust} says what of all that a pass may rely on. Uses the nouns.
 */
@NullMarked
package org.jointwalk.upkeep;

import org.jspecify.annotations.NullMarked;
