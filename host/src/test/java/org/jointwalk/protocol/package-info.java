/**
 * Tests of the bytes on the line. The vectors beside the specification are made by {@link
 * org.jointwalk.protocol.WriteVectors} and read back from the committed files, so that they are
 * known to be what other implementations read too.
 */
@NullMarked
package org.jointwalk.protocol;

import org.jspecify.annotations.NullMarked;
