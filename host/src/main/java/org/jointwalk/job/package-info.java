/**
 * The job at the bench: what was told, done, seen and measured, as facts in the order they
 * happened.
 *
 * <p>Start with {@link org.jointwalk.job.Event} and {@link org.jointwalk.job.Job#fold}. {@link
 * org.jointwalk.job.Findings} and {@link org.jointwalk.job.Verdict} are what the program made of
 * the facts; they are kept with the rule that made them and can be made again. {@link
 * org.jointwalk.job.JobLog} is the port to what remembers. Uses {@code quantity}, {@code stack} and
 * {@code fixture}.
 */
@NullMarked
package org.jointwalk.job;

import org.jspecify.annotations.NullMarked;
