package org.jointwalk.job;

import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Estimate;

/**
 * What one reading says of two contacts, or two groups of contacts, that should be apart.
 *
 * @param seating number of the seating
 * @param step what was asked
 * @param siemens conductance between the sides, switches and contacts included
 * @param expectedSiemens conductance that is there without anything joining the two, at most: a
 *     good board's, or this one's by what joins others; for groups what known joins conduct
 */
public record PairEstimate(int seating, Step step, Estimate siemens, double expectedSiemens) {}
