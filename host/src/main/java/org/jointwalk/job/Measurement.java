package org.jointwalk.job;

import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;

/**
 * A reading with what was asked and when the parts were clamped.
 *
 * @param seating number of the seating
 * @param step what was asked
 * @param reading what came back
 */
public record Measurement(int seating, Step step, Reading reading) {}
