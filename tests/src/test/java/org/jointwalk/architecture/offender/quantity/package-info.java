/** Planted offenders against the house rule. */
@NullMarked
package org.jointwalk.architecture.offender.quantity;

import org.jspecify.annotations.NullMarked;
