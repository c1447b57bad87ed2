package org.jointwalk.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.link.Bench;
import org.jointwalk.link.LinkFixture;
import org.junit.jupiter.api.Test;

class LidByHandTest {

  private static final List<String> PADS = List.of("N020", "N122");

  private final Bench bench = new Bench();
  private final StringWriter err = new StringWriter();
  private final AtomicInteger asked = new AtomicInteger();

  private boolean again(LinkFixture fixture, boolean terminal, Runnable operator) {
    return new LidByHand(
            fixture,
            new PrintWriter(err, true),
            terminal,
            () -> {
              asked.incrementAndGet();
              operator.run();
            })
        .again(PADS);
  }

  private void openAndClose() {
    bench.peer.openLid();
    bench.peer.closeLid();
  }

  @Test
  void lidThatWasOpenedIsASeating() throws FixtureException {
    try (LinkFixture fixture = bench.open()) {
      Clamping before = fixture.clamping();

      assertThat(again(fixture, true, this::openAndClose)).isTrue();

      assertThat(fixture.clamping()).isNotEqualTo(before);
      assertThat(asked).hasValue(1);
      assertThat(err.toString())
          .contains("SEAT AGAIN", "N020, N122", "Open the lid", "without forcing", "press Enter");
    }
  }

  @Test
  void wordAloneIsNotBelievedWhereThereIsALid() throws FixtureException {
    try (LinkFixture fixture = bench.open()) {
      boolean done =
          again(
              fixture,
              true,
              () -> {
                if (asked.get() == 2) {
                  openAndClose();
                }
              });

      assertThat(done).isTrue();
      assertThat(asked).hasValue(2);
      assertThat(err.toString()).contains("has not seen its lid open");
    }
  }

  @Test
  void lidThatIsLeftOpenIsAskedToBeClosed() throws FixtureException {
    try (LinkFixture fixture = bench.open()) {
      boolean done =
          again(
              fixture,
              true,
              () -> {
                if (asked.get() == 1) {
                  bench.peer.openLid();
                } else {
                  bench.peer.closeLid();
                }
              });

      assertThat(done).isTrue();
      assertThat(err.toString()).contains("The lid is still open.");
    }
  }

  @Test
  void operatorWhoNeverOpensTheLidIsAskedThreeTimes() throws FixtureException {
    try (LinkFixture fixture = bench.open()) {
      assertThat(again(fixture, true, () -> {})).isFalse();

      assertThat(asked).hasValue(3);
    }
  }

  @Test
  void nobodyIsAskedWithoutATerminal() throws FixtureException {
    try (LinkFixture fixture = bench.open()) {
      assertThat(again(fixture, false, this::openAndClose)).isFalse();

      assertThat(asked).hasValue(0);
      assertThat(err.toString()).contains("nobody is at the terminal");
    }
  }

  @Test
  void stopEndsTheWaitForAnOperatorWhoDoesNotCome() throws FixtureException {
    CountDownLatch never = new CountDownLatch(1);
    try (LinkFixture fixture = bench.open()) {
      LidByHand lid =
          new LidByHand(fixture, new PrintWriter(err, true), true, () -> await(asked, never));
      CompletableFuture<Boolean> answer = CompletableFuture.supplyAsync(() -> lid.again(PADS));
      while (asked.get() == 0) {
        Thread.onSpinWait();
      }
      lid.stop();

      assertThat(answer).succeedsWithin(Duration.ofSeconds(5)).isEqualTo(false);
      assertThat(lid.again(PADS)).as("asked once more").isFalse();
    }
    never.countDown();
  }

  private static void await(AtomicInteger asked, CountDownLatch never) {
    asked.incrementAndGet();
    try {
      never.await();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  @Test
  void wordIsTakenWhereThereIsNoLid() throws FixtureException {
    bench.peer.lid = 2;
    try (LinkFixture fixture = bench.open()) {
      Clamping before = fixture.clamping();

      assertThat(again(fixture, true, () -> {})).isTrue();

      assertThat(fixture.clamping()).isNotEqualTo(before);
      assertThat(err.toString()).contains("clamp them, then press Enter").doesNotContain("lid");
    }
  }
}
