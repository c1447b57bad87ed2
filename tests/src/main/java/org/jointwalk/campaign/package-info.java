/**
 * Campaigns: one question put to many simulated stacks, answered in figures with the bars they have
 * to reach.
 *
 * <p>Start with {@link org.jointwalk.campaign.Campaign}. A campaign is one class that implements
 * {@link org.jointwalk.campaign.Experiment} and a place in the list of {@code Campaign}. What is
 * true and what can be seen is asked of {@code simulator} and of the faults that were put in, never
 * of the packages that are judged.
 */
@NullMarked
package org.jointwalk.campaign;

import org.jspecify.annotations.NullMarked;
