package org.jointwalk.job;

import java.util.List;

/**
 * All that the readings of a pass say, seating by seating.
 *
 * @param paths at most one per seating and contact
 * @param pairs in the order read
 * @param residuals in the order read
 * @param shifts drops against their reference
 * @param drifts reference steps that did not hold
 */
public record Estimates(
    List<PathEstimate> paths,
    List<PairEstimate> pairs,
    List<Residual> residuals,
    List<DropShift> shifts,
    List<Drift> drifts) {

  /** Estimates of readings that did not drift. */
  public Estimates(
      List<PathEstimate> paths,
      List<PairEstimate> pairs,
      List<Residual> residuals,
      List<DropShift> shifts) {
    this(paths, pairs, residuals, shifts, List.of());
  }

  public Estimates {
    paths = List.copyOf(paths);
    pairs = List.copyOf(pairs);
    residuals = List.copyOf(residuals);
    shifts = List.copyOf(shifts);
    drifts = List.copyOf(drifts);
  }
}
