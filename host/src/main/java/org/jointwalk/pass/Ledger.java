package org.jointwalk.pass;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Zero;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.Measurement;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.Seating;

/**
 * What the log says of the pass under way. It is made from the log once and grows by the events
 * that the log has taken, in that order: nothing is known here that is not durable there. One
 * thread.
 */
final class Ledger {

  private final Writing writing;
  private final List<Measurement> measurements = new ArrayList<>();
  private final List<Planned> scans = new ArrayList<>();
  private final List<String> refusals = new ArrayList<>();
  private int pass;
  private int seatings;
  private Optional<Seating> seating = Optional.empty();
  private Optional<Zero> zero = Optional.empty();
  private int batches;
  private long closures;
  private double deviceSeconds;

  /** A scan with how many of its steps have a reading. */
  private static final class Planned {

    private final int seating;
    private final Scan plan;
    private int taken;

    private Planned(int seating, Scan plan) {
      this.seating = seating;
      this.plan = plan;
    }

    private boolean complete() {
      return taken >= plan.steps().size();
    }
  }

  /** The ledger of a pass that is about to begin in a job. */
  Ledger(JobLog log, Job job) {
    this.writing = new Writing(log, job.id(), job.lastSeq());
    this.seatings = job.seatings();
    this.pass = job.passes().size() + 1;
  }

  /** The ledger of a pass that was interrupted. */
  Ledger(JobLog log, Job job, PassRecord record) {
    this(log, job);
    this.pass = record.begun().pass();
    this.zero = record.zero();
    record.seatings().forEach(s -> seating = Optional.of(s));
    for (PassRecord.ScanRecord scan : record.scans()) {
      scans.add(new Planned(scan.seating(), scan.plan()));
      scan.batches().forEach(batch -> keep(scans.size(), batch));
    }
  }

  /** Number of the pass. */
  int pass() {
    return pass;
  }

  /** The zero that the pass takes off. */
  Optional<Zero> zero() {
    return zero;
  }

  /** The last seating, empty before there is one. */
  Optional<Seating> seating() {
    return seating;
  }

  /** Number for the next seating, counted over the job. */
  int nextSeating() {
    return seatings + 1;
  }

  /** Number for the next scan, counted over the pass. */
  int nextScan() {
    return scans.size() + 1;
  }

  /** Every reading so far, in the order taken. */
  List<Measurement> measurements() {
    return Collections.unmodifiableList(measurements);
  }

  /** Why the fixture refused readings, in order. */
  List<String> refusals() {
    return Collections.unmodifiableList(refusals);
  }

  /** What is left of the last scan, when it was planned for a seating and not finished. */
  Optional<Scan> unfinished(int inSeating) {
    if (scans.isEmpty()) {
      return Optional.empty();
    }
    Planned last = scans.get(scans.size() - 1);
    return last.complete() || last.seating != inSeating
        ? Optional.empty()
        : Optional.of(last.plan.from(last.plan.first() + last.taken));
  }

  /** How often the same scan was finished in a seating. */
  int finished(Scan scan, int inSeating) {
    int finished = 0;
    for (Planned planned : scans) {
      finished +=
          planned.seating == inSeating && planned.complete() && planned.plan.equals(scan) ? 1 : 0;
    }
    return finished;
  }

  void append(Event.PassBegun begun) {
    write(begun);
  }

  void append(Event.ZeroUsed used) {
    write(used);
    zero = Optional.of(used.zero());
  }

  void append(Event.Seated seated) {
    write(seated);
    seating = Optional.of(seated.seating());
    seatings++;
  }

  void append(Event.ScanPlanned planned) {
    write(planned);
    scans.add(new Planned(planned.seating(), planned.plan()));
  }

  void append(Event.BatchKept kept) {
    write(kept);
    keep(kept.scan(), kept.batch());
  }

  void append(Event.PassGraded graded) {
    write(graded);
  }

  private void write(Event event) {
    writing.append(event);
  }

  private void keep(int scan, Batch batch) {
    Planned planned = scans.get(scan - 1);
    for (Reading reading : batch.readings()) {
      measurements.add(
          new Measurement(planned.seating, planned.plan.step(reading.index()), reading));
      if (reading instanceof Reading.Refused refused) {
        refusals.add(refused.reason());
      }
    }
    planned.taken += batch.readings().size();
    batches++;
    closures += batch.closures();
    deviceSeconds += batch.deviceSeconds();
  }

  /** How the pass ended. */
  Outcome outcome(Event.PassGraded graded) {
    return new Outcome(
        pass,
        seating.map(Seating::number).orElse(0),
        graded.findings(),
        measurements.size(),
        batches,
        writing.commits(),
        closures,
        deviceSeconds);
  }
}
