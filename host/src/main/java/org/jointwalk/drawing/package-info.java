/**
 * Findings as pictures: the ring to scale with a mark for every pad, and the resistances along it.
 *
 * <p>Start with {@link org.jointwalk.drawing.RingDrawing}. Every grade has a colour and a shape of
 * its own, so that a picture in grey, or seen with colour-blind eyes, says the same. What was not
 * seen is hatched and never looks like a pale good. The result is one SVG element that needs
 * nothing from outside. Uses the nouns only.
 */
@NullMarked
package org.jointwalk.drawing;

import org.jspecify.annotations.NullMarked;
