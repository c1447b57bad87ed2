/** Tests of the command line, run in process through the two streams it writes to. */
@NullMarked
package org.jointwalk.cli;

import org.jspecify.annotations.NullMarked;
