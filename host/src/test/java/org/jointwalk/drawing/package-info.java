/** Pictures: what can be told apart in them, and that they need nothing from outside. */
@NullMarked
package org.jointwalk.drawing;

import org.jspecify.annotations.NullMarked;
