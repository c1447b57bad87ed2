/** Tests of the way to a fixture, against a peer that fails as it is told. */
@NullMarked
package org.jointwalk.link;

import org.jspecify.annotations.NullMarked;
