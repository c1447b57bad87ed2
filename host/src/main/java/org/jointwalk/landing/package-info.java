/**
 * Tells what belongs to a probe from what belongs to the board under it: over the seatings of one
 * pass ({@link org.jointwalk.landing.Landings#blame}), and over the passes of a fixture's life
 * ({@link org.jointwalk.landing.Landings#states}). Pure; uses the nouns and {@code solve} alone.
 */
@NullMarked
package org.jointwalk.landing;

import org.jspecify.annotations.NullMarked;
