package org.jointwalk.job;

import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Gauge;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Selfcheck;
import org.jointwalk.fixture.Zero;

/** One entry of a fixture's own stream: what was done with it outside of any job. */
public sealed interface FixtureEvent extends Event {

  /**
   * A piece of work with the fixture began; its readings follow.
   *
   * @param run number from 1 over the life of the fixture
   * @param fixtureMap content hash of the fixture map's text
   * @param capabilities what the fixture reported
   */
  record Begun(int run, FixtureTask task, String fixtureMap, Capabilities capabilities, String by)
      implements FixtureEvent {}

  /** Something was clamped, or clamped again. */
  record Clamped(int run, Seating seating) implements FixtureEvent {}

  /**
   * A scan was planned; its readings follow.
   *
   * @param scan number from 1 within the run
   * @param plan all its steps, with the set-up they are for
   */
  record Planned(int run, int seating, int scan, Scan plan) implements FixtureEvent {}

  /** A batch of readings of a scan became durable. */
  record Kept(int run, int scan, Batch batch) implements FixtureEvent {}

  /**
   * The switches were zeroed.
   *
   * @param program version that fitted
   */
  record Zeroed(int run, Zero zero, String program) implements FixtureEvent {}

  /**
   * The fixture was looked over.
   *
   * @param check what was found, as shown
   * @param program version that judged
   */
  record Checked(int run, Selfcheck check, String program) implements FixtureEvent {}

  /**
   * How well the fixture repeats was found out.
   *
   * @param gauge what was found, as shown
   * @param program version that judged
   */
  record Studied(int run, Gauge gauge, String program) implements FixtureEvent {}
}
