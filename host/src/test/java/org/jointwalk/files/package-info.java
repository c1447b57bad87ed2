/** Tests of the file formats: what is written comes back, and bad input is told whole. */
@NullMarked
package org.jointwalk.files;

import org.jspecify.annotations.NullMarked;
