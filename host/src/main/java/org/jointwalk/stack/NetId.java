package org.jointwalk.stack;

/**
 * The identity of a net: nets of the two boards are different things even under one name.
 *
 * @param side the board
 * @param name as the map writes it
 */
public record NetId(Side side, String name) {}
