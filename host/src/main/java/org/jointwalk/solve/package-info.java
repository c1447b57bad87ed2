/** Readings to estimates. Start with {@link org.jointwalk.solve.Solve}. Pure; uses the nouns. */
@NullMarked
package org.jointwalk.solve;

import org.jspecify.annotations.NullMarked;
