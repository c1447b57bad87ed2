package org.jointwalk.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.net.InetAddress;
import java.net.ServerSocket;
import java.util.SplittableRandom;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.protocol.Request;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class TcpLinkTest {

  private static LinkFixture open(String port) throws FixtureException {
    return LinkFixture.open(
        Ports.named(port, LinkSettings.DEFAULTS),
        Bench.ASSEMBLY,
        Bench.WIRED,
        Ticks.ofThisComputer(),
        new SplittableRandom(4),
        LinkSettings.DEFAULTS);
  }

  @Test
  void scanRunsOverTcp() throws Exception {
    Bench bench = new Bench();
    try (Served served = Served.here();
        LinkFixture fixture = open(served.port())) {
      fixture.clamping();
      fixture.run(Bench.scan(500), bench.kept::add);
    }

    assertThat(bench.indices()).hasSize(500).isSorted().doesNotHaveDuplicates();
    assertThat(bench.voltages()).isEqualTo(bench.indices());
  }

  @Test
  void fixtureIsKeptCompanyWhileTheLogIsSlow() throws Exception {
    Bench bench = new Bench();
    PeerFixture peer = new PeerFixture(Bench.WIRED, Ticks.ofThisComputer());
    CountDownLatch statuses = new CountDownLatch(7);
    AtomicInteger runs = new AtomicInteger();
    peer.losesHost =
        m -> {
          if (m instanceof Request.Status) {
            statuses.countDown();
          }
          runs.addAndGet(m instanceof Request.Run ? 1 : 0);
          return false;
        };
    try (Served served = Served.of(peer);
        LinkFixture fixture = open(served.port())) {
      fixture.clamping();
      fixture.run(
          Bench.scan(800),
          batch -> {
            bench.kept.add(batch);
            try {
              // Six of these take longer than a fixture bears silence.
              assertThat(statuses.await(30, TimeUnit.SECONDS)).isTrue();
            } catch (InterruptedException e) {
              throw new IllegalStateException(e);
            }
          });
    }

    assertThat(bench.voltages()).hasSize(800).isEqualTo(bench.indices());
    assertThat(runs).hasValue(1);
  }

  @Test
  void portWhereNothingListensIsNamed() throws Exception {
    int free;
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      free = socket.getLocalPort();
    }

    assertThatThrownBy(() -> open("tcp:localhost:" + free))
        .isInstanceOf(FixtureException.Unreachable.class)
        .hasMessageContaining("No fixture at tcp:localhost:" + free + ": nothing listens there");
  }

  @Test
  void textThatIsNoTcpPortSaysWhatToWrite() {
    assertThatThrownBy(() -> Ports.named("tcp:localhost", LinkSettings.DEFAULTS))
        .hasMessageContaining("tcp:HOST:NUMBER");
    assertThatThrownBy(() -> Ports.named("tcp:localhost:70000", LinkSettings.DEFAULTS))
        .hasMessageContaining("tcp:HOST:NUMBER");
    assertThatThrownBy(() -> Ports.named(" ", LinkSettings.DEFAULTS))
        .hasMessageContaining("/dev/ttyACM0");
  }

  @Test
  void deviceThatIsNotThereIsNamed() {
    assertThatThrownBy(() -> open("/dev/no-such-tty"))
        .isInstanceOf(FixtureException.Unreachable.class)
        .hasMessageContaining("No port /dev/no-such-tty: there is no such device");
    assertThatThrownBy(() -> open("pom.xml"))
        .isInstanceOf(FixtureException.Unreachable.class)
        .hasMessageContaining("it is a file and no device");
  }
}
