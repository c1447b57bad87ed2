/**
 * Helps tests that repeat a check on many drawn examples, and tests that turn, renumber or mirror a
 * stack and expect the same grades. Start with {@link org.jointwalk.trial.Trials} and {@link
 * org.jointwalk.trial.SmallMap}.
 */
@NullMarked
package org.jointwalk.trial;

import org.jspecify.annotations.NullMarked;
