package org.jointwalk.pass;

import org.jointwalk.job.Findings;

/**
 * How a pass ended.
 *
 * @param pass its number in the job
 * @param seating number of its last seating
 * @param findings as sealed in the log
 * @param readings of the whole pass
 * @param batches kept in the log
 * @param commits of this run of the program
 * @param closures of switches
 * @param deviceSeconds time the fixture took
 */
public record Outcome(
    int pass,
    int seating,
    Findings findings,
    int readings,
    int batches,
    int commits,
    long closures,
    double deviceSeconds) {}
