/**
 * Invented devices for tests and for the demo: pad maps of any size, the Saltmarsh S2 (a handheld
 * data terminal for bird-ringing crews), fixtures that are wired to them, and what can be wrong
 * with them.
 *
 * <p>Start with {@link org.jointwalk.saltmarsh.Ring} and {@link
 * org.jointwalk.saltmarsh.SaltmarshS2}. {@link org.jointwalk.saltmarsh.FixtureMaps} wires a fixture
 * to a map, {@link org.jointwalk.saltmarsh.Specimens} breaks a stack, {@link
 * org.jointwalk.saltmarsh.Stacks} holds the stacks of the demo. Everything follows from a seed.
 */
@NullMarked
package org.jointwalk.saltmarsh;

import org.jspecify.annotations.NullMarked;
