/**
 * The built program from outside: what it says of bad input, how fast it starts, whether it does
 * what the README shows.
 *
 * <p>Start reading at {@link org.jointwalk.program.Program}. Runs when the distribution is there,
 * in Maven's phase {@code verify}; {@code bad-input.txt} is the table of bad input.
 */
@NullMarked
package org.jointwalk.program;

import org.jspecify.annotations.NullMarked;
