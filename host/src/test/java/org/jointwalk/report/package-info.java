/** One small job and what a bench reads of it. */
@NullMarked
package org.jointwalk.report;

import org.jspecify.annotations.NullMarked;
