package org.jointwalk.diagnose;

import org.jointwalk.stack.Component;

/**
 * A component between two makings of it: the joint that came in and the joint that was re-balled at
 * the same place are two parts.
 *
 * @param component what it is
 * @param life how often it had been made anew; 0 for what came in
 */
record Part(Component component, int life) {}
