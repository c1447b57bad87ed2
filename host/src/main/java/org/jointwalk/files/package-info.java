/**
 * Nouns to text and back: map files, stack files, the bodies of log entries.
 *
 * <p>Readers report every fault of a file at once, each with its place, the value, what is allowed
 * and a hint. Uses the rows above; knows no device, database or thread.
 */
@NullMarked
package org.jointwalk.files;

import org.jspecify.annotations.NullMarked;
