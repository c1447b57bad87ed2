/**
 * Comparisons with programs from outside.
 *
 * <p>Start reading at {@link org.jointwalk.oracle.NgspiceTest}.
 */
@NullMarked
package org.jointwalk.oracle;

import org.jspecify.annotations.NullMarked;
