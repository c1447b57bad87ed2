/**
 * Whole passes over a stack whose every reading is computed by ngspice, a circuit simulator from
 * outside the project.
 *
 * <p>Start reading at {@code SpicePassTest}. {@code Copper} and {@code Deck} write the circuit
 * straight from the records of the pad map, {@code Sight} says from the same records what a pass
 * can see; neither uses what the program itself thinks of the stack, so that a mistake there cannot
 * hide.
 */
@NullMarked
package org.jointwalk.spice;

import org.jspecify.annotations.NullMarked;
