/** Measured values against the worked examples of the guides they follow. */
@NullMarked
package org.jointwalk.quantity;

import org.jspecify.annotations.NullMarked;
