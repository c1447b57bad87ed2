/**
 * The loop: ask, run, keep, until no question is open. Start with {@link org.jointwalk.pass.Pass}.
 * Uses the nouns and the rooms of thought; knows no file, clock or device.
 */
@NullMarked
package org.jointwalk.pass;

import org.jspecify.annotations.NullMarked;
