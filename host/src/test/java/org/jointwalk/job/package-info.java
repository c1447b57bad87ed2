/** Tests of what a log folds into. */
@NullMarked
package org.jointwalk.job;

import org.jspecify.annotations.NullMarked;
