package org.jointwalk.campaign;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Scan;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Question.Need;
import org.jointwalk.joblog.MemoryJobLog;
import org.jointwalk.pass.Operator;
import org.jointwalk.pass.Outcome;
import org.jointwalk.pass.Pass;
import org.jointwalk.pass.PassException;
import org.jointwalk.pass.Request;
import org.jointwalk.simulator.Truth;
import org.jointwalk.simulator.VirtualFixture;

/**
 * One pass over one stack, with the truth of every seating beside it.
 *
 * @param outcome how the pass ended; empty when it did not
 * @param ended why it did not end as it should, else empty
 * @param seatings what was in the fixture in each seating, without the probes that never land
 * @param fixtureNanos time that the simulator took for readings
 * @param nanos time of the whole pass
 */
record Trial(
    Optional<Outcome> outcome, String ended, List<Truth> seatings, long fixtureNanos, long nanos) {

  Trial {
    seatings = List.copyOf(seatings);
  }

  /** Runs the pass; the operator seats again as often as he is asked. */
  static Trial of(Drawn drawn) {
    Bench bench = new Bench(drawn);
    MemoryJobLog log = new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC);
    List<Event> events = new ArrayList<>();
    Intake intake = new Intake(drawn.stand().map().device(), "", "not said", List.of(), "");
    events.add(new Event.Opened(intake, "jw"));
    for (Action action : drawn.stand().actions()) {
      events.add(new Event.Done(action, "jw"));
    }
    log.append(Bench.JOB, 0, events);
    Optional<Outcome> outcome = Optional.empty();
    String ended = "";
    long start = System.nanoTime();
    try {
      outcome = Optional.of(new Pass(bench, log, bench, bench.request()).run());
    } catch (FixtureException | PassException e) {
      ended = e.toString();
    }
    return new Trial(outcome, ended, bench.seatings, bench.fixtureNanos, System.nanoTime() - start);
  }

  /** A fixture with somebody at it, who notes what really lies in it. Not thread-safe. */
  private static final class Bench implements Fixture, Operator {

    private static final String JOB = "campaign";

    private final Drawn drawn;
    private final VirtualFixture fixture;
    private final VirtualFixture witness;
    private final List<Truth> seatings = new ArrayList<>();
    private long fixtureNanos;

    private Bench(Drawn drawn) {
      this.drawn = drawn;
      fixture = drawn.clamped();
      witness = drawn.clampedWithoutDeadProbes();
      seatings.add(witness.truth());
    }

    private Request request() {
      return new Request(
          JOB,
          drawn.stand().assembly(),
          drawn.fixture().contacts(),
          Purpose.DIAGNOSIS,
          "",
          "",
          "jw",
          "campaign",
          false);
    }

    @Override
    public Capabilities capabilities() {
      return fixture.capabilities();
    }

    @Override
    public Clamping clamping() {
      return fixture.clamping();
    }

    @Override
    public void run(Scan scan, Keep keep) throws FixtureException {
      long[] kept = {0};
      long start = System.nanoTime();
      fixture.run(
          scan,
          batch -> {
            long before = System.nanoTime();
            keep.keep(batch);
            kept[0] += System.nanoTime() - before;
          });
      fixtureNanos += System.nanoTime() - start - kept[0];
    }

    @Override
    public void stop() {
      fixture.stop();
    }

    @Override
    public boolean reseat(List<String> positions) {
      fixture.reseat();
      witness.reseat();
      seatings.add(witness.truth());
      return true;
    }

    @Override
    public void progress(Need need, int taken, int of) {
      // Nobody watches.
    }

    @Override
    public void remark(String text) {
      // What a remark says is also in the findings.
    }
  }
}
