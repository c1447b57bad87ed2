package org.jointwalk.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.protocol.Message;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.RunEnd;
import org.jointwalk.protocol.StepRefusal;
import org.jointwalk.protocol.Streamed;
import org.junit.jupiter.api.Test;

class LinkFixtureTest {

  private static final int STEPS = 1000;

  private final Bench bench = new Bench();
  private final PeerFixture peer = bench.peer;

  private void run(int steps) throws FixtureException {
    try (LinkFixture fixture = bench.open()) {
      fixture.clamping();
      fixture.run(Bench.scan(steps), bench.kept::add);
    }
  }

  private static List<Integer> upTo(int end) {
    return IntStream.range(0, end).boxed().toList();
  }

  private void assertAllKept(int steps) {
    assertThat(bench.indices()).isEqualTo(upTo(steps));
    assertThat(bench.voltages()).isEqualTo(upTo(steps));
    assertThat(peer.measuring()).isFalse();
  }

  private int runs() {
    return (int) peer.arrived().stream().filter(Request.Run.class::isInstance).count();
  }

  @Test
  void everyReadingIsKeptOnceAndInOrder() throws Exception {
    run(STEPS);

    assertAllKept(STEPS);
    assertThat(runs()).isEqualTo(1);
  }

  @Test
  void smallestFixtureIsServedToo() throws Exception {
    peer.window = 252;
    peer.steps = 16;
    peer.stepNanos = 3_000_000;

    run(300);

    assertAllKept(300);
  }

  @Test
  void capabilitiesAreThoseOfTheFixture() throws Exception {
    try (LinkFixture fixture = bench.open()) {
      assertThat(fixture.capabilities().identity())
          .isEqualTo(Bench.WIRED.capabilities().identity());
      assertThat(fixture.hasLid()).isTrue();
    }
  }

  @Test
  void creditIsNeverFurtherAheadThanAtTheBeginning() throws Exception {
    try (LinkFixture fixture = bench.open()) {
      fixture.clamping();
      fixture.run(
          Bench.scan(STEPS),
          batch -> {
            bench.kept.add(batch);
            assertThat(bench.kept.get(0).readings().get(0).index()).isZero();
          });
    }

    int ahead = LinkSettings.DEFAULTS.ahead();
    List<Long> limits =
        peer.arrived().stream()
            .filter(Streamed.Credit.class::isInstance)
            .map(m -> ((Streamed.Credit) m).limit())
            .toList();
    assertThat(limits).isNotEmpty().isSorted().allMatch(limit -> limit <= STEPS + ahead);
    assertThat(limits.get(0)).isEqualTo(64 + ahead);
  }

  @Test
  void lostFramesOfTheProgramAreSentAgain() throws Exception {
    AtomicInteger count = new AtomicInteger();
    peer.losesHost = m -> m instanceof Streamed && count.incrementAndGet() % 7 == 3;

    run(STEPS);

    assertAllKept(STEPS);
    assertThat(runs()).isEqualTo(1);
  }

  @Test
  void lostResultsAreMeasuredAgain() throws Exception {
    AtomicInteger count = new AtomicInteger();
    peer.losesOwn = m -> m instanceof Notice.Results && count.incrementAndGet() % 29 == 0;

    run(STEPS);

    assertAllKept(STEPS);
    assertThat(runs()).isGreaterThan(1);
  }

  @Test
  void lostEndIsFoundInTheState() throws Exception {
    peer.losesOwn = m -> m instanceof Notice.End;

    run(STEPS);

    assertAllKept(STEPS);
    assertThat(runs()).isEqualTo(1);
  }

  @Test
  void lostAnswersAreAskedForAgainAndNothingIsDoneTwice() throws Exception {
    AtomicInteger count = new AtomicInteger();
    peer.losesOwn = m -> !(m instanceof Notice) && count.incrementAndGet() % 2 == 0;

    run(200);

    assertAllKept(200);
  }

  @Test
  void lineThatLosesEveryResultEndsWithAnError() {
    peer.losesOwn = m -> m instanceof Notice.Results;

    assertThatThrownBy(() -> run(STEPS))
        .isInstanceOf(FixtureException.Unreachable.class)
        .hasMessageContaining("begun 6 times")
        .hasMessageContaining("cable");
    assertThat(bench.kept).isEmpty();
  }

  @Test
  void cableThatIsPulledAndPutBackCostsNothing() throws Exception {
    peer.at(300, peer::pullCable);

    run(STEPS);

    assertAllKept(STEPS);
    List<Message> hellos = peer.arrived().stream().filter(Request.Hello.class::isInstance).toList();
    assertThat(((Request.Hello) hellos.get(0)).replaces()).isZero();
    assertThat(((Request.Hello) hellos.get(1)).replaces())
        .isEqualTo(((Request.Hello) hellos.get(0)).nonce());
  }

  @Test
  void cableThatStaysOutIsNamedAndWhatWasReadStays() {
    peer.at(300, peer::vanish);

    assertThatThrownBy(() -> run(STEPS))
        .isInstanceOf(FixtureException.Unreachable.class)
        .hasMessageContaining("did not come back within 20 s")
        .hasMessageContaining("No port peer")
        .hasMessageContaining("--resume");
    assertThat(bench.indices()).isEqualTo(upTo(256));
  }

  @Test
  void lidThatOpensEndsTheSeating() {
    peer.at(300, peer::openLid);

    assertThatThrownBy(() -> run(STEPS))
        .isInstanceOf(FixtureException.LidOpened.class)
        .hasMessageContaining("this seating is over")
        .hasMessageContaining("--resume");
    assertThat(bench.indices()).isEqualTo(upTo(256));
  }

  @Test
  void lidThatIsOpenIsToBeClosed() {
    peer.lid = 1;

    assertThatThrownBy(() -> run(STEPS))
        .isInstanceOf(FixtureException.LidOpened.class)
        .hasMessage("The lid is open. Close it, then run the same command with --resume.");
  }

  @Test
  void lidThatOpensBetweenTwoRunsIsNeverTakenForTheSameSeating() throws Exception {
    try (LinkFixture fixture = bench.open()) {
      fixture.clamping();
      fixture.run(Bench.scan(100), bench.kept::add);
      peer.openLid();
      peer.closeLid();

      assertThatThrownBy(() -> fixture.run(Bench.scan(100), bench.kept::add))
          .isInstanceOf(FixtureException.LidOpened.class);
      assertThat(fixture.clamping().lid()).isEqualTo(2);
      fixture.run(Bench.scan(100), bench.kept::add);
    }
    assertThat(bench.indices()).hasSize(200);
    assertThat(peer.measuring()).isFalse();
  }

  @Test
  void fixtureThatStartsAnewInARunSaysWhy() {
    peer.at(300, () -> peer.restart(4));

    assertThatThrownBy(() -> run(STEPS))
        .isInstanceOf(FixtureException.Restarted.class)
        .hasMessageContaining("started anew in mid-pass: its supply was too low");
    assertThat(bench.indices()).isEqualTo(upTo(256));
  }

  @Test
  void fixtureThatStartsAnewBetweenRunsHasAnotherSeating() throws Exception {
    try (LinkFixture fixture = bench.open()) {
      long before = fixture.clamping().boot();
      peer.restart(1);

      assertThat(fixture.clamping().boot()).isEqualTo(before + 1);
      fixture.run(Bench.scan(100), bench.kept::add);
    }
    assertAllKept(100);
  }

  @Test
  void connectedBusesVoidWhatNoCheckCovers() {
    peer.at(300, () -> peer.badBus = true);

    assertThatThrownBy(() -> run(STEPS))
        .isInstanceOf(FixtureException.Broken.class)
        .hasMessageContaining("connection between its own buses (0.012 V, 0.000 mA)")
        .hasMessageContaining("64 readings since its last good check were thrown away");
    assertThat(bench.indices()).isEqualTo(upTo(256));
  }

  @Test
  void faultOfTheFixtureIsNamed() {
    peer.faultDetail = 5;
    peer.at(300, () -> peer.end(RunEnd.FAULT));

    assertThatThrownBy(() -> run(STEPS))
        .isInstanceOf(FixtureException.Broken.class)
        .hasMessageContaining("it is too hot");
  }

  @Test
  void takenOverFixtureIsToldFromABrokenOne() {
    peer.at(300, () -> peer.end(RunEnd.TAKEN_OVER));

    assertThatThrownBy(() -> run(STEPS))
        .isInstanceOf(FixtureException.Unreachable.class)
        .hasMessageContaining("Another program has taken the fixture over");
  }

  @Test
  void stepOverACeilingIsRefusedOnceAndNotAskedForAgain() {
    peer.refuse(300, StepRefusal.VOLTAGE);

    assertThatThrownBy(() -> run(STEPS))
        .isInstanceOf(FixtureException.Refused.class)
        .hasMessageContaining("refuses step 300 of the scan (NORMAL_LEVEL")
        .hasMessageContaining("the voltage is over its ceiling")
        .hasMessageContaining("Nothing was sourced");
    assertThat(bench.indices()).isEqualTo(upTo(300));
    assertThat(runs()).isEqualTo(1);
    assertThat(peer.measuring()).isFalse();
  }

  @Test
  void stepThatCannotBeTakenIsAReadingThatSaysSo() throws Exception {
    peer.refuse(300, StepRefusal.NOT_BARE);

    run(STEPS);

    assertThat(bench.indices()).isEqualTo(upTo(STEPS));
  }

  @Test
  void stopKeepsWhatWasMeasuredAndEndsWithoutError() throws Exception {
    try (LinkFixture fixture = bench.open()) {
      fixture.clamping();
      peer.at(300, fixture::stop);
      long before = bench.ticks.nanos();
      fixture.run(Bench.scan(STEPS), bench.kept::add);

      assertThat(bench.ticks.nanos() - before).isLessThan(1_000_000_000L);
      assertThat(bench.indices()).hasSizeGreaterThan(300).hasSizeLessThan(STEPS);
      assertThat(bench.indices()).isEqualTo(upTo(bench.indices().size()));
      assertThat(peer.measuring()).isFalse();
    }
  }

  @Test
  void stopOfAFixtureThatDoesNotAnswerTakesLessThanASecond() throws Exception {
    try (LinkFixture fixture = bench.open()) {
      fixture.clamping();
      long[] stopped = new long[1];
      peer.at(
          300,
          () -> {
            peer.silent = true;
            stopped[0] = bench.ticks.nanos();
            fixture.stop();
          });
      fixture.run(Bench.scan(STEPS), bench.kept::add);

      assertThat(bench.ticks.nanos() - stopped[0]).isLessThan(1_000_000_000L);
    }
  }

  @Test
  void stopEndsTheWaitForALineThatDoesNotComeBack() throws Exception {
    try (LinkFixture fixture = bench.open()) {
      fixture.clamping();
      long[] stopped = new long[1];
      peer.vanish();
      peer.whenMissed(
          () -> {
            stopped[0] = bench.ticks.nanos();
            fixture.stop();
          });

      assertThatThrownBy(fixture::clamping).isInstanceOf(FixtureException.Unreachable.class);
      assertThat(stopped[0]).isPositive();
      assertThat(bench.ticks.nanos() - stopped[0]).isLessThan(1_000_000_000L);
    }
  }

  @Test
  void logThatFailsStopsTheFixture() throws Exception {
    try (LinkFixture fixture = bench.open()) {
      fixture.clamping();
      assertThatThrownBy(
              () ->
                  fixture.run(
                      Bench.scan(STEPS),
                      batch -> {
                        throw new IllegalStateException("the disk is full");
                      }))
          .hasMessage("the disk is full");
      assertThat(peer.measuring()).isFalse();
    }
  }

  @Test
  void programThatWasSuspendedForTenMinutesGoesOn() throws Exception {
    AtomicInteger batches = new AtomicInteger();
    try (LinkFixture fixture = bench.open()) {
      fixture.clamping();
      fixture.run(
          Bench.scan(STEPS),
          batch -> {
            bench.kept.add(batch);
            if (batches.incrementAndGet() == 3) {
              bench.ticks.pass(Duration.ofMinutes(10));
            }
          });
    }
    assertAllKept(STEPS);
    assertThat(runs()).isEqualTo(2);
  }

  @Test
  void programSpeaksAtLeastEveryQuarterOfASecond() throws Exception {
    peer.stepNanos = 400_000_000;

    run(10);

    assertAllKept(10);
    assertThat(peer.arrived().stream().filter(Request.Status.class::isInstance).count())
        .isGreaterThan(4000 / 250);
  }
}
