/**
 * A stack and a fixture that exist in numbers only: the bench without a bench, and the judge of
 * every campaign.
 *
 * <p>Start with {@link org.jointwalk.simulator.VirtualFixture}. {@link
 * org.jointwalk.simulator.Truth} answers without noise. Nothing here shares an algorithm with the
 * packages that think: the network is solved by a solver of its own, or a mistake would hide itself
 * in every comparison. Uses the nouns, names and hashes of {@code files}, and {@code protocol}.
 *
 * <p>{@link org.jointwalk.simulator.Device} is the same fixture at the end of a line: bytes of the
 * fixture protocol in and out, on a clock that it is told. {@link
 * org.jointwalk.simulator.LineFaults} is a line that is no better than real ones.
 */
@NullMarked
package org.jointwalk.simulator;

import org.jspecify.annotations.NullMarked;
