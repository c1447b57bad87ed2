/** Tests of what readings say of paths, against circuits whose truth is known. */
@NullMarked
package org.jointwalk.solve;

import org.jspecify.annotations.NullMarked;
