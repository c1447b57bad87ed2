package org.jointwalk.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import java.util.random.RandomGenerator;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;

/** Bytes with bad intent: each test would throw, and so fail, if a reader did. */
class HostileTest {

  /** Most that the longest frame may make a reader set aside, working space included. */
  private static final long MOST_BYTES = 64 * 1024;

  @Test
  void anyBytesAtAllGiveFramesOrAreDropped() {
    Trials.of(
        2000,
        random -> {
          byte[] bytes = new byte[random.nextInt(2000)];
          random.nextBytes(bytes);
          for (Parser.End end : Parser.End.values()) {
            assertThat(new Parser(end).feed(bytes, 0, bytes.length))
                .allSatisfy(one -> assertThat(one).isInstanceOf(Received.Dropped.class));
          }
        });
  }

  @Test
  void anyContentBehindAGoodCheckIsReadOrNamedUnreadable() {
    Trials.of(
        20_000,
        random -> {
          byte[] payload = new byte[random.nextInt(Frame.MOST_PAYLOAD + 1)];
          random.nextBytes(payload);
          int type = random.nextInt(256);

          List<Received> received = receive(type, Bytes.of(payload));

          assertThat(received).hasSize(1);
          assertThat(received.get(0)).isNotInstanceOf(Received.Dropped.class);
        });
  }

  private static List<Received> receive(int type, Bytes payload) {
    return Lines.feed(new Parser(Lines.receiver(type)), Lines.wire(Lines.raw(type, 1, 1, payload)));
  }

  @Test
  void everyMessageWithBytesChangedCutOrAddedIsReadOrNamedUnreadable() {
    List<Function<RandomGenerator, Message>> kinds =
        new ArrayList<>(RandomMessages.kinds().values());
    Trials.of(
        10_000,
        random -> {
          Message message = kinds.get(random.nextInt(kinds.size())).apply(random);
          Bytes payload = spoilt(message.payload(), random);

          List<Received> received = receive(message.type(), payload);

          assertThat(received).hasSize(1);
          if (received.get(0) instanceof Received.Whole whole) {
            assertThat(whole.frame().message().payload())
                .as("what is read as a message is written as the same bytes")
                .isEqualTo(payload);
          } else {
            assertThat(received.get(0)).isInstanceOf(Received.Unreadable.class);
          }
        });
  }

  private static Bytes spoilt(Bytes payload, RandomGenerator random) {
    Bytes spoilt = payload;
    for (int i = random.nextInt(4); i >= 0; i--) {
      int size = spoilt.size();
      switch (random.nextInt(3)) {
        case 0 -> spoilt = Lines.part(spoilt, 0, random.nextInt(size + 1));
        case 1 ->
            spoilt =
                size < Frame.MOST_PAYLOAD
                    ? Lines.join(spoilt, Lines.repeat(random.nextInt(256), 1))
                    : spoilt;
        default ->
            spoilt =
                size > 0
                    ? Lines.changed(spoilt, random.nextInt(size), random.nextInt(256))
                    : spoilt;
      }
    }
    return spoilt;
  }

  @Test
  void noFrameMakesAReaderSetAsideMoreThanItsBytesAskFor() {
    com.sun.management.ThreadMXBean memory =
        (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
    long self = Thread.currentThread().getId();
    Parser host = new Parser(Parser.End.HOST);
    Parser fixture = new Parser(Parser.End.FIXTURE);
    RandomGenerator random = Trials.random(1);
    long most = 0;
    for (int i = 0; i < 20_000; i++) {
      int type = i % 256;
      byte[] payload = new byte[random.nextInt(Frame.MOST_PAYLOAD + 1)];
      random.nextBytes(payload);
      if (i % 2 == 0) {
        // Counts are what lies: make them as large as they go.
        Arrays.fill(payload, (byte) 0xFF);
      }
      byte[] wire = Lines.wire(Lines.raw(type, 1, 1, Bytes.of(payload))).toArray();
      Parser parser = Lines.receiver(type) == Parser.End.HOST ? host : fixture;
      long before = memory.getThreadAllocatedBytes(self);
      parser.feed(wire, 0, wire.length);
      long used = memory.getThreadAllocatedBytes(self) - before;
      // The first frames load classes.
      most = i < 2_000 ? 0 : Math.max(most, used);
    }

    assertThat(most).isPositive().isLessThan(MOST_BYTES);
  }

  @Test
  void endlessLineWithoutADelimiterIsHeldInNoMoreThanOneFrame() {
    Parser parser = new Parser(Parser.End.HOST);
    byte[] flood = Lines.repeat(0x77, 100_000).toArray();
    int received = 0;
    for (int i = 0; i < 100; i++) {
      received += parser.feed(flood, 0, flood.length).size();
    }

    assertThat(received).isZero();
    assertThat(parser.feed(new byte[1], 0, 1))
        .containsExactly(new Received.Dropped(Received.Cause.OVERSIZE, 10_000_000));
  }
}
