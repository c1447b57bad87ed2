/**
 * Estimates to findings and to what is still open. Start with {@link org.jointwalk.grade.Grading}.
 * Pure; uses the nouns and {@code solve}.
 */
@NullMarked
package org.jointwalk.grade;

import org.jspecify.annotations.NullMarked;
