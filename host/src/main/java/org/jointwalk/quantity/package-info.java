/**
 * Numbers that carry their unit or their doubt.
 *
 * <p>{@link org.jointwalk.quantity.Ohms}, {@link org.jointwalk.quantity.Volts} and {@link
 * org.jointwalk.quantity.Amps} are for what is sourced or limited, where two swapped doubles would
 * burn a board. {@link org.jointwalk.quantity.Estimate} is for what was measured. Uses the Java
 * library only.
 */
@NullMarked
package org.jointwalk.quantity;

import org.jspecify.annotations.NullMarked;
