/**
 * The way to a fixture: lines that carry bytes, and the fixture behind them.
 *
 * <p>Start with {@link org.jointwalk.link.LinkFixture}, which is the port {@link
 * org.jointwalk.fixture.Fixture} over a line, and {@link org.jointwalk.link.ByteLink}, which is a
 * line. {@link org.jointwalk.link.Ports} makes lines of what a user types; {@link
 * org.jointwalk.link.Finder} says what answers on them. Inside, a {@code Session} asks and is
 * answered, {@code Outgoing} streams a program, {@code Incoming} keeps count of what comes back.
 * The bytes and their rules are those of {@code protocol}; M1, M2 and so on are clauses of {@code
 * firmware-protocol/SPEC.md}. Uses nouns and formats only.
 */
@NullMarked
package org.jointwalk.link;

import org.jspecify.annotations.NullMarked;
