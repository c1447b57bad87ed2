/** Tests of the study of a fixture, against published worked examples. */
@NullMarked
package org.jointwalk.study;

import org.jspecify.annotations.NullMarked;
