package org.jointwalk.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.InstanceOfAssertFactories.type;

import java.io.IOException;
import java.time.Duration;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(20)
class ThreadedTest {

  private static final Duration LONG = Duration.ofSeconds(10);

  private final FailingWire wire = new FailingWire();
  private final Threaded link = new Threaded("wire", wire, Duration.ofMillis(50));

  /** A wire that blocks as serial ports do, and fails as it is told. */
  private static final class FailingWire implements Threaded.Wire {

    private final BlockingQueue<byte[]> incoming = new ArrayBlockingQueue<>(10);
    private final BlockingQueue<byte[]> outgoing = new ArrayBlockingQueue<>(10);
    private final CountDownLatch closed = new CountDownLatch(1);
    private volatile boolean takesNothing;
    private volatile boolean refusesWrites;

    @Override
    public int read(byte[] into) throws IOException {
      try {
        byte[] next = incoming.poll(20, TimeUnit.MILLISECONDS);
        if (next == null) {
          return closed.getCount() == 0 ? -1 : 0;
        }
        if (next.length == 0) {
          return -1;
        }
        System.arraycopy(next, 0, into, 0, next.length);
        return next.length;
      } catch (InterruptedException e) {
        throw new IOException(e);
      }
    }

    @Override
    public void write(byte[] bytes) throws IOException {
      if (refusesWrites) {
        throw new IOException("no such device");
      }
      try {
        if (takesNothing) {
          closed.await();
          throw new IOException("closed");
        }
        outgoing.put(bytes);
      } catch (InterruptedException e) {
        throw new IOException(e);
      }
    }

    @Override
    public void close() {
      closed.countDown();
    }
  }

  @AfterEach
  void close() {
    link.close();
  }

  private void assertFails(ThrowingCallable call, LinkException.Cause how) {
    assertThatThrownBy(call)
        .asInstanceOf(type(LinkException.class))
        .extracting(LinkException::failure)
        .isEqualTo(how);
  }

  @Test
  void bytesPassBothWays() throws Exception {
    wire.incoming.put(new byte[] {1, 0, 2});

    assertThat(link.read(LONG)).containsExactly(1, 0, 2);
    assertThat(link.read(Duration.ZERO)).isEmpty();
    link.write(new byte[] {3});
    assertThat(wire.outgoing.poll(10, TimeUnit.SECONDS)).containsExactly(3);
  }

  @Test
  void wireThatTakesNothingIsStuckAndGivenBack() {
    wire.takesNothing = true;

    assertThatThrownBy(() -> link.write(new byte[] {1}))
        .hasMessageContaining("wire has taken no bytes for 50 ms. Pull the fixture's plug")
        .asInstanceOf(type(LinkException.class))
        .extracting(LinkException::failure)
        .isEqualTo(LinkException.Cause.STUCK);
    assertThat(wire.closed.getCount()).isZero();
    assertFails(() -> link.read(Duration.ZERO), LinkException.Cause.GONE);
  }

  @Test
  void bytesBeforeTheEndAreReadBeforeItIsTold() throws Exception {
    wire.incoming.put(new byte[] {7});
    wire.incoming.put(new byte[0]);

    assertThat(link.read(LONG)).containsExactly(7);
    assertFails(() -> link.read(LONG), LinkException.Cause.GONE);
    assertFails(() -> link.read(LONG), LinkException.Cause.GONE);
  }

  @Test
  void wireThatRefusesWritesHasGone() {
    wire.refusesWrites = true;

    assertFails(() -> link.write(new byte[] {1}), LinkException.Cause.GONE);
  }

  @Test
  void closedLineIsGoneBothWays() {
    link.close();

    assertFails(() -> link.read(LONG), LinkException.Cause.GONE);
    assertFails(() -> link.write(new byte[] {1}), LinkException.Cause.GONE);
  }
}
