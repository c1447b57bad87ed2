/** Tests of the job logs: one contract for both, and what only a file can suffer. */
@NullMarked
package org.jointwalk.joblog;

import org.jspecify.annotations.NullMarked;
