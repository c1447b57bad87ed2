/** Tests of joint, probe and landing told apart, and of probes over passes. */
@NullMarked
package org.jointwalk.landing;

import org.jspecify.annotations.NullMarked;
