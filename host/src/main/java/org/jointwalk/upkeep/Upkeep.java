package org.jointwalk.upkeep;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Selfcheck;
import org.jointwalk.fixture.Selfcheck.What;
import org.jointwalk.fixture.Zero;
import org.jointwalk.job.FixtureEvent;
import org.jointwalk.job.FixtureTask;
import org.jointwalk.job.JobLog;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.SetUp;

/**
 * Zeroes a fixture, or looks it over, and keeps all of it in the fixture's own stream. A run that
 * is ended before its end counts for nothing. One thread, but for {@link #stop}.
 */
public final class Upkeep {

  private static final int SEATINGS = 3;
  private static final SetUp EMPTY = SetUp.named("empty").orElseThrow();
  private static final SetUp PLATE = SetUp.named("shorting-plate").orElseThrow();

  private final JobLog log;
  private final Stand stand;
  private final Order order;
  private volatile Optional<Run> current = Optional.empty();
  private volatile boolean stopping;

  /**
   * @param log that has the fixture's stream, or will have
   * @param stand who is at the fixture
   */
  public Upkeep(JobLog log, Stand stand, Order order) {
    this.log = log;
    this.stand = stand;
    this.order = order;
  }

  /** Ends the run soon, without a result. Any thread, any number of times. */
  public void stop() {
    stopping = true;
    current.ifPresent(Run::stop);
  }

  private Run begin(FixtureTask task) {
    Run run = new Run(log, stand, task, order);
    current = Optional.of(run);
    if (stopping) {
      run.stop();
    }
    return run;
  }

  private List<Contact> contacts() {
    return List.copyOf(order.map().contacts());
  }

  /**
   * Zeroes the switches on the shorting plate, in three seatings of it.
   *
   * @param at the time
   * @param celsius temperature beside the fixture, where it is known
   * @throws StoppedException when it was ended, or the plate cannot be read at all
   */
  public Zero zero(Instant at, Optional<Double> celsius) throws FixtureException, StoppedException {
    if (!order.map().capabilities().kelvin().readsPath()) {
      throw new StoppedException(
          "This fixture reads behind its switches: they are in none of its readings, and there is"
              + " nothing to zero.");
    }
    Run run = begin(FixtureTask.ZERO);
    Fixture fixture = run.lay(PLATE);
    Capabilities able = fixture.capabilities();
    Steps steps = new Steps(able);
    List<ZeroFit.Seat> seats = new ArrayList<>();
    for (int i = 0; i < SEATINGS; i++) {
      if (i > 0) {
        Clamping before = fixture.clamping();
        if (!stand.again() || fixture.clamping().equals(before)) {
          throw new StoppedException(
              "The plate was not seated again, so that probe and switch cannot be told apart. Nothing"
                  + " of this zero counts; begin anew.");
        }
      }
      seats.add(seat(run, fixture, steps, i));
    }
    Zero zero =
        new ZeroFit(able, able.gentlest(), steps.amps(able.gentlest()))
            .of(seats, contacts().size(), at, celsius);
    run.end(new FixtureEvent.Zeroed(run.number(), zero, order.program()));
    return zero;
  }

  private ZeroFit.Seat seat(Run run, Fixture fixture, Steps steps, int number)
      throws FixtureException, StoppedException {
    String what = "Zeroing, seating " + (number + 1) + " of " + SEATINGS;
    ZeroSeat seat = new ZeroSeat(contacts(), number);
    seat.keep(run.take(fixture, PLATE, what, seat.trial(steps)));
    if (!seat.choose()) {
      throw new StoppedException(
          "Hardly any probe reads the plate. Clean it, see that it lies flat, and begin anew.");
    }
    for (int turn = 0; turn < 2; turn++) {
      seat.keep(run.take(fixture, PLATE, what, seat.all(steps, turn)));
    }
    return seat.fit();
  }

  /**
   * Looks the fixture over: with nothing in it and, when asked, on the shorting plate.
   *
   * @param plate whether the plate is at hand
   * @throws StoppedException when it was ended
   */
  public Selfcheck check(boolean plate) throws FixtureException, StoppedException {
    Run run = begin(FixtureTask.CHECK);
    Findings findings = new Findings(order.map());
    Fixture fixture = run.lay(EMPTY);
    findings.in(EMPTY.name());
    boolean joined =
        new EmptyCheck(run, fixture, EMPTY, order.map().channels().size(), findings)
            .look(contacts());
    lid(fixture, findings);
    if (plate) {
      fixture = run.lay(PLATE);
      findings.in(PLATE.name());
      new PlateCheck(run, stand, fixture, PLATE, findings).look(contacts(), joined);
    } else {
      findings.unseen("relays that never close: they show on the shorting plate (--plate)");
    }
    Kelvin kelvin = fixture.capabilities().kelvin();
    if (kelvin == Kelvin.TIP) {
      findings.unseen(
          "sense relays that never open: with two tips a pad, neither air nor plate shows them");
    }
    findings.unseen("the scale of the ranges: a reference resistor has to show it");
    Selfcheck check = findings.done();
    run.end(new FixtureEvent.Checked(run.number(), check, order.program()));
    return check;
  }

  private void lid(Fixture fixture, Findings findings) throws FixtureException {
    if (!stand.hasLid()) {
      findings.unseen("the lid: this fixture has none that it can tell of");
      return;
    }
    Clamping before = fixture.clamping();
    if (!stand.again()) {
      findings.unseen("the lid: nobody opened it");
    } else if (fixture.clamping().equals(before)) {
      findings.fault(
          What.LID,
          "the counter of the lid did not move when it was opened: two seatings would count as one");
    }
  }
}
