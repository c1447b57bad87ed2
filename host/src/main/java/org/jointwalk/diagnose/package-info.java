/**
 * From all passes and events of a job to one verdict: where the fault is, how sure that is, what to
 * do next, and what nobody could see.
 *
 * <p>Start with {@link org.jointwalk.diagnose.Diagnose}, a pure function of the job. {@code Lives}
 * knows which component a pass really met, since work destroys parts and makes new ones; {@code
 * Evidence} turns graded passes into clues and proofs; {@code Suspects} takes from each clue what
 * is proven good and weighs the rest by {@code Odds}; {@code Standing} tells how far the job is,
 * from which {@code NextStep}, {@code Headline} and {@code Unseen} speak. Uses {@code quantity},
 * {@code stack}, {@code fixture} and {@code job}.
 */
@NullMarked
package org.jointwalk.diagnose;

import org.jspecify.annotations.NullMarked;
