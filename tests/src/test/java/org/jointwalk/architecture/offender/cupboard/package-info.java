/** Planted offenders against the house rule. */
@NullMarked
package org.jointwalk.architecture.offender.cupboard;

import org.jspecify.annotations.NullMarked;
