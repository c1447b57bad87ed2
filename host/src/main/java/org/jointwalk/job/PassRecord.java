package org.jointwalk.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Zero;

/**
 * What the log says of one pass.
 *
 * @param begun its first event
 * @param seq number of that event in the log
 * @param seatings in order
 * @param scans in order
 * @param zero of the fixture's switches that it takes off
 * @param graded how it was graded; empty while it is under way
 */
public record PassRecord(
    Event.PassBegun begun,
    long seq,
    List<Seating> seatings,
    List<ScanRecord> scans,
    Optional<Zero> zero,
    Optional<Event.PassGraded> graded) {

  public PassRecord {
    seatings = List.copyOf(seatings);
    scans = List.copyOf(scans);
  }

  /**
   * One scan of a pass with what has come back of it.
   *
   * @param seating number of the seating it was planned for
   * @param plan all its steps
   * @param batches kept so far
   */
  public record ScanRecord(int seating, Scan plan, List<Batch> batches) {

    public ScanRecord {
      batches = List.copyOf(batches);
    }

    /** How many of the steps have a reading. */
    public int taken() {
      return batches.stream().mapToInt(b -> b.readings().size()).sum();
    }

    /** Whether every step has its reading. */
    public boolean complete() {
      return taken() >= plan.steps().size();
    }
  }

  /** Every reading so far with its step, in the order taken. */
  public List<Measurement> measurements() {
    List<Measurement> all = new ArrayList<>();
    for (ScanRecord scan : scans) {
      for (Batch batch : scan.batches()) {
        for (Reading reading : batch.readings()) {
          all.add(new Measurement(scan.seating(), scan.plan().step(reading.index()), reading));
        }
      }
    }
    return all;
  }

  /** Whether the pass was begun and not graded. */
  public boolean open() {
    return graded.isEmpty();
  }
}
