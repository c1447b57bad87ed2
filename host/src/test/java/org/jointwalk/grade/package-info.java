/** Tests of the grading, on estimates made by hand and on the virtual bench. */
@NullMarked
package org.jointwalk.grade;

import org.jspecify.annotations.NullMarked;
