package org.jointwalk.upkeep;

import org.jointwalk.fixture.FixtureMap;

/**
 * Who wants a fixture looked after, and which.
 *
 * @param map how it is wired
 * @param mapHash content hash of the map's text
 * @param by initials of whoever asks; may be empty
 * @param program version that will judge
 */
public record Order(FixtureMap map, String mapHash, String by, String program) {}
