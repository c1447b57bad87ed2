package org.jointwalk.job;

import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Zero;

/**
 * One entry of the log: of a job's stream, or a {@link FixtureEvent} of a fixture's. Facts are
 * never rewritten; findings and verdicts are kept as they were shown, with rule and program
 * version.
 */
public sealed interface Event
    permits Event.Opened,
        Event.Done,
        Event.Looked,
        Event.Clamped,
        Event.Noted,
        Event.PassBegun,
        Event.Seated,
        Event.ScanPlanned,
        Event.BatchKept,
        Event.PassGraded,
        Event.ZeroUsed,
        Event.Judged,
        Event.Closed,
        FixtureEvent,
        WatchEvent {

  /** A device came in. */
  record Opened(Intake intake, String by) implements Event {}

  /** Something was done. */
  record Done(Action action, String by) implements Event {}

  /** Something was seen. */
  record Looked(Seen seen, String by) implements Event {}

  /** The halves were clamped together and tried. */
  record Clamped(WorksClamped works, String by) implements Event {}

  /** Free text. */
  record Noted(String text, String by) implements Event {}

  /**
   * A pass began.
   *
   * @param pass number from 1
   * @param setUp name of the set-up
   * @param purpose what for
   * @param variant of the interposer
   * @param padMap content hash of the pad map's text
   * @param fixtureMap content hash of the fixture map's text
   * @param capabilities what the fixture reported
   */
  record PassBegun(
      int pass,
      String setUp,
      Purpose purpose,
      String variant,
      String padMap,
      String fixtureMap,
      Capabilities capabilities,
      String by)
      implements Event {}

  /** A pass takes a zero of the fixture off its readings; without this a typical switch is. */
  record ZeroUsed(int pass, Zero zero) implements Event {}

  /** The parts were clamped, or clamped again. */
  record Seated(int pass, Seating seating) implements Event {}

  /**
   * A scan was planned; its readings follow.
   *
   * @param scan number from 1 within the pass
   * @param plan all its steps
   */
  record ScanPlanned(int pass, int seating, int scan, Scan plan) implements Event {}

  /** A batch of readings of a scan became durable. */
  record BatchKept(int pass, int scan, Batch batch) implements Event {}

  /**
   * A pass ended and was graded.
   *
   * @param findings as shown
   * @param program version that graded
   */
  record PassGraded(int pass, Findings findings, String program) implements Event {}

  /** A verdict was given. */
  record Judged(Verdict verdict, String program) implements Event {}

  /** The job was closed. */
  record Closed(String by) implements Event {}
}
