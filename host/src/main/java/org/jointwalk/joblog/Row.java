package org.jointwalk.joblog;

/**
 * A row of the table {@code event}, without its stream.
 *
 * @param seq from 1
 * @param at when, in UTC, as {@link Moment} writes it
 * @param zone id of the bench's time zone
 * @param kind of the event
 * @param version of the body's form
 * @param body the event as text
 */
record Row(long seq, String at, String zone, String kind, int version, String body) {}
