package org.jointwalk.pass;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Event;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Logged;
import org.jointwalk.stack.Defects;
import org.junit.jupiter.api.Test;

/** A pass that somebody stops, whatever is under way. */
class StopTest {

  private static Rig rig() {
    return ResumeTest.rig(Switching.MULTIPLEXER, Defects.NONE);
  }

  private static List<Event> events(Rig rig) {
    return rig.log().read(Rig.JOB).stream().map(Logged::event).toList();
  }

  private static long batches(Rig rig) {
    return events(rig).stream().filter(Event.BatchKept.class::isInstance).count();
  }

  private static void assertStopped(Pass pass, String where) {
    assertThatThrownBy(pass::run)
        .isInstanceOf(PassException.Interrupted.class)
        .hasMessageContainingAll("Stopped " + where, "Nothing is lost", "--resume");
  }

  /** A fixture at which something happens whenever it is asked what is clamped. */
  private record Asked(Fixture fixture, Does does) implements Fixture {

    /** What happens. */
    @FunctionalInterface
    private interface Does {
      void now() throws FixtureException;
    }

    @Override
    public Capabilities capabilities() {
      return fixture.capabilities();
    }

    @Override
    public Clamping clamping() throws FixtureException {
      does.now();
      return fixture.clamping();
    }

    @Override
    public void run(Scan scan, Keep keep) throws FixtureException {
      fixture.run(scan, keep);
    }

    @Override
    public void stop() {
      fixture.stop();
    }
  }

  @Test
  void stopAfterAnyBatchLosesNothingAndTheRestIsReadLater() throws Exception {
    Rig whole = rig();
    Findings findings = whole.run().findings();
    for (long at = 1; at < batches(whole); at++) {
      Rig rig = rig();
      Pass pass = rig.pass(rig.fixture(), false);
      AtomicInteger seen = new AtomicInteger();
      long stopAt = at;
      rig.whenRead(
          () -> {
            if (seen.incrementAndGet() == stopAt) {
              pass.stop();
            }
          });

      assertStopped(pass, "");
      assertThat(batches(rig)).isEqualTo(at);
      assertThat(events(rig)).noneMatch(Event.PassGraded.class::isInstance);
      assertThat(rig.resume().findings()).isEqualTo(findings);
      assertThat(events(rig)).filteredOn(Event.PassBegun.class::isInstance).hasSize(1);
    }
  }

  @Test
  void stopThatComesBeforeThePassLeavesTheLogAsItWas() {
    Rig rig = rig();
    List<Event> before = events(rig);
    Pass pass = rig.pass(rig.fixture(), false);
    pass.stop();

    assertStopped(pass, "before anything was read");
    assertThat(events(rig)).isEqualTo(before);
  }

  /** The fixture passes over a stop that comes before it has begun. */
  @Test
  void stopJustBeforeARunEndsThatRunAfterItsFirstBatch() {
    for (int at = 2; at < 5; at++) {
      Rig rig = rig();
      AtomicInteger asked = new AtomicInteger();
      AtomicLong before = new AtomicLong();
      int stopAt = at;
      Pass[] pass = new Pass[1];
      Fixture fixture =
          new Asked(
              rig.fixture(),
              () -> {
                if (asked.incrementAndGet() == stopAt) {
                  before.set(batches(rig));
                  pass[0].stop();
                }
              });
      pass[0] = rig.pass(fixture, false);

      assertStopped(pass[0], "");
      assertThat(batches(rig)).isEqualTo(before.get() + 1);
    }
  }

  @Test
  void operatorIsNotWaitedForWhenThePassIsStopped() throws Exception {
    Rig rig = ResumeTest.rig(Switching.MULTIPLEXER, ResumeTest.damage());
    Pass pass = rig.pass(rig.fixture(), false);
    rig.seatAgainAtMost(0);
    rig.whenAsked(pass::stop);

    assertStopped(pass, "while the parts were to be seated again");
    assertThat(events(rig)).noneMatch(Event.PassGraded.class::isInstance);
    rig.seatAgainAtMost(1000);
    rig.whenAsked(() -> {});
    Rig whole = ResumeTest.rig(Switching.MULTIPLEXER, ResumeTest.damage());
    assertThat(rig.resume().findings()).isEqualTo(whole.run().findings());
  }

  @Test
  void fixtureThatIsGivenUpForAStopIsNoFailureOfTheFixture() {
    Rig rig = rig();
    Pass[] pass = new Pass[1];
    Fixture fixture =
        new Asked(
            rig.fixture(),
            () -> {
              pass[0].stop();
              throw new FixtureException.Unreachable("peer did not answer in time.");
            });
    pass[0] = rig.pass(fixture, false);

    assertStopped(pass[0], "while the fixture was asked");
  }

  @Test
  void stopAfterTheEndChangesNothing() throws Exception {
    Rig rig = rig();
    Pass pass = rig.pass(rig.fixture(), false);
    Findings findings = pass.run().findings();
    pass.stop();

    assertThat(events(rig).get(events(rig).size() - 1))
        .isInstanceOfSatisfying(
            Event.PassGraded.class, g -> assertThat(g.findings()).isEqualTo(findings));
    assertThat(findings.bridges()).isEmpty();
    assertThat(rig.damage()).isEqualTo(Defects.NONE);
  }
}
