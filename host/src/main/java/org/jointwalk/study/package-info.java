/**
 * How well a fixture repeats, in the hands of the people who use it: clampings by several people,
 * and what of the spread is whose. Start with {@link org.jointwalk.study.Study}. Uses the nouns.
 */
@NullMarked
package org.jointwalk.study;

import org.jspecify.annotations.NullMarked;
