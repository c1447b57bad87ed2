/**
 * The conformance kit: what any fixture has to do at the end of a line, asked of it in bytes.
 *
 * <p>Start with {@link org.jointwalk.conform.Conformance}. Each class named after a part of the
 * specification holds the checks of its clauses, one for each M-number that binds a fixture; {@code
 * Talk} is the host that asks, {@code Tap} reads what comes and notes what no frame may be. The kit
 * makes its own frames, since most of what it sends a well-behaved host never would, and since a
 * mistake of the host's encoder must not hide the same mistake in a fixture. A room of its own,
 * because it knows neither {@code link}, whose lines it is given, nor {@code simulator}, which is
 * only one of the fixtures that it looks at. Uses {@code protocol} and nouns only.
 */
@NullMarked
package org.jointwalk.conform;

import org.jspecify.annotations.NullMarked;
