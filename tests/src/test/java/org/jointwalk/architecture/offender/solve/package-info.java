/** Planted offenders against the house rule. */
@NullMarked
package org.jointwalk.architecture.offender.solve;

import org.jspecify.annotations.NullMarked;
