/** The conformance kit against the virtual device, sound and broken in one place at a time. */
@NullMarked
package org.jointwalk.conform;

import org.jspecify.annotations.NullMarked;
