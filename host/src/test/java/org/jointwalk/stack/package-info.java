/** Tests of the parts and of the set-ups they stand in. */
@NullMarked
package org.jointwalk.stack;

import org.jspecify.annotations.NullMarked;
