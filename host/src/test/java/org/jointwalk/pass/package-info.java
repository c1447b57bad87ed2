/** Tests of the pass and the watch, on circuits solved by hand and on the virtual bench. */
@NullMarked
package org.jointwalk.pass;

import org.jspecify.annotations.NullMarked;
