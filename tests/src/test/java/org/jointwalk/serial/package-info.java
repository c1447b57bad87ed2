/**
 * The way to a fixture over a real serial device: pseudo-terminals that socat makes, with what may
 * sit behind a port. Start reading at {@link org.jointwalk.serial.PseudoTerminalTest}.
 */
@NullMarked
package org.jointwalk.serial;

import org.jspecify.annotations.NullMarked;
