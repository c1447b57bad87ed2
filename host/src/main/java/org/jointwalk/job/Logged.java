package org.jointwalk.job;

import java.time.Instant;
import java.time.ZoneId;

/**
 * An event with its place in the stream.
 *
 * @param seq from 1, without a gap
 * @param at when it was appended
 * @param zone of the bench
 * @param event what happened
 */
public record Logged(long seq, Instant at, ZoneId zone, Event event) {}
