/**
 * What remembers jobs: a file for the bench, and the memory of one run for demonstrations and
 * tests.
 *
 * <p>Start with {@link org.jointwalk.joblog.SqliteJobLog}. It turns events into rows; {@code
 * LogFile} decides when the file is opened and whether it is still the same one, {@code Tables}
 * runs the statements, {@code Schema} tells a job log from other files and brings an old one up to
 * date, {@code LogFaults} says in bench words what went wrong. May use the nouns and the formats.
 */
@NullMarked
package org.jointwalk.joblog;

import org.jspecify.annotations.NullMarked;
