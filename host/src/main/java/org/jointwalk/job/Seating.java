package org.jointwalk.job;

import org.jointwalk.fixture.Clamping;

/**
 * One clamping as the job counts it.
 *
 * @param number from 1, over all passes of the job
 * @param clamping what the fixture says of it
 */
public record Seating(int number, Clamping clamping) {}
