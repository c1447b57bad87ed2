/**
 * The reference firmware against this program: the same pass on the simulator, on a
 * pseudo-terminal's process and on an emulated microcontroller, and messages of each read by the
 * other. Start reading at {@link org.jointwalk.firmware.SameGradesTest}.
 */
@NullMarked
package org.jointwalk.firmware;

import org.jspecify.annotations.NullMarked;
