/**
 * The command line, and the only place that joins the doors to the outside world with one another.
 *
 * <p>Start reading at {@link org.jointwalk.cli.Main}. This package may use every other package; no
 * other package may use it.
 */
@NullMarked
package org.jointwalk.cli;

import org.jspecify.annotations.NullMarked;
