/** Tests of what is measured, in which order, and what is left out. */
@NullMarked
package org.jointwalk.plan;

import org.jspecify.annotations.NullMarked;
