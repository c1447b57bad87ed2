/**
 * Open questions to a scan that answers them. Start with {@link org.jointwalk.plan.Plan}. Pure;
 * uses the nouns, {@code solve} and {@code grade}.
 */
@NullMarked
package org.jointwalk.plan;

import org.jspecify.annotations.NullMarked;
