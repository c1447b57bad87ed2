/**
 * What the bench reads: passes, verdicts and jobs as text for the console, and as one line of JSON.
 *
 * <p>Start with {@link org.jointwalk.report.PassText} (the first lines after a pass) and {@link
 * org.jointwalk.report.PassJson} (the same for programs). {@link org.jointwalk.report.Look} says
 * how text may look where it is read. {@link org.jointwalk.report.JobReport} makes pages: a {@code
 * Sheet} holds what stands on one, the templates in {@code src/main/jte} place and escape it, and
 * {@link org.jointwalk.report.PdfPrinter} prints the same page. Nothing is computed here: every
 * finding comes from a noun. Uses the nouns and the formats.
 */
@NullMarked
package org.jointwalk.report;

import org.jspecify.annotations.NullMarked;
