/** Hand-made jobs and what a bench would say of them. */
@NullMarked
package org.jointwalk.diagnose;

import org.jspecify.annotations.NullMarked;
