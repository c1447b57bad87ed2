/** Tests of the account of the probes, on histories whose truth is known. */
@NullMarked
package org.jointwalk.landing;

import org.jspecify.annotations.NullMarked;
