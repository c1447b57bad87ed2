/**
 * The device under work: two boards, the interposer between them, and what can be wrong with them.
 *
 * <p>Start with {@link org.jointwalk.stack.PadMap} (what a model is), {@link
 * org.jointwalk.stack.SetUp} (what may be clamped) and {@link org.jointwalk.stack.Assembly} (the
 * electrical skeleton that the two make together). {@link org.jointwalk.stack.Component} is the one
 * vocabulary for injected faults, findings, groups and actions. Uses {@code quantity}.
 */
@NullMarked
package org.jointwalk.stack;

import org.jspecify.annotations.NullMarked;
