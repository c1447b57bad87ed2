package org.jointwalk.upkeep;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.FixtureEvent;
import org.jointwalk.job.FixtureRecord;
import org.jointwalk.job.FixtureTask;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.JobLogException;
import org.jointwalk.job.Seating;
import org.jointwalk.stack.SetUp;

/**
 * One piece of work with a fixture, as its stream has it: each batch is durable before the fixture
 * goes on. One thread, but for {@link #stop}.
 */
final class Run {

  private final JobLog log;
  private final Stand stand;
  private final String stream;
  private final int number;
  private long seq;
  private int seatings;
  private int scans;
  private Optional<Clamping> clamping = Optional.empty();
  private volatile Optional<Fixture> fixture = Optional.empty();
  private volatile boolean stopping;

  Run(JobLog log, Stand stand, FixtureTask task, Order order) {
    this.log = log;
    this.stand = stand;
    FixtureRecord record = FixtureRecord.read(log, order.map().capabilities().identity());
    stream = FixtureRecord.stream(record.identity());
    number = record.nextRun();
    seq = record.lastSeq();
    seatings = record.seatings();
    write(
        new FixtureEvent.Begun(
            number, task, order.mapHash(), order.map().capabilities(), order.by()));
  }

  int number() {
    return number;
  }

  /** Has something laid into the fixture. */
  Fixture lay(SetUp setUp) throws FixtureException, StoppedException {
    requireGoingOn();
    Fixture laid = stand.lay(setUp);
    fixture = Optional.of(laid);
    requireGoingOn();
    return laid;
  }

  /** Takes steps, in order; the readings may be fewer only where this throws. */
  List<Taken> take(Fixture from, SetUp setUp, String what, List<Step> steps)
      throws FixtureException, StoppedException {
    requireGoingOn();
    if (steps.isEmpty()) {
      return List.of();
    }
    Scan scan = Scan.of(setUp.name(), steps);
    seat(from);
    write(new FixtureEvent.Planned(number, seatings, ++scans, scan));
    List<Taken> taken = new ArrayList<>();
    from.run(
        scan,
        batch -> {
          write(new FixtureEvent.Kept(number, scans, batch));
          for (Reading reading : batch.readings()) {
            taken.add(new Taken(scan.step(reading.index()), reading));
          }
          stand.progress(what, taken.size(), steps.size());
          if (stopping) {
            from.stop();
          }
        });
    requireGoingOn();
    if (taken.size() < steps.size()) {
      throw new StoppedException(
          "The fixture ended early. Nothing of this run counts; begin anew.");
    }
    return taken;
  }

  private void seat(Fixture from) throws FixtureException {
    Clamping now = from.clamping();
    if (!clamping.equals(Optional.of(now))) {
      clamping = Optional.of(now);
      write(new FixtureEvent.Clamped(number, new Seating(++seatings, now)));
    }
  }

  /** Keeps how the run ended. */
  void end(FixtureEvent event) {
    write(event);
  }

  private void write(FixtureEvent event) {
    while (true) {
      try {
        seq = log.append(stream, seq, List.of(event));
        return;
      } catch (JobLogException.Overtaken e) {
        // A pass may add to the stream meanwhile; what it adds changes nothing here.
        long last = FixtureRecord.fold(stream, log.read(stream)).lastSeq();
        if (last == seq) {
          throw e;
        }
        seq = last;
      }
    }
  }

  void stop() {
    stopping = true;
    fixture.ifPresent(Fixture::stop);
  }

  private void requireGoingOn() throws StoppedException {
    if (stopping) {
      throw new StoppedException("Stopped. Nothing of this run counts; begin anew.");
    }
  }
}
