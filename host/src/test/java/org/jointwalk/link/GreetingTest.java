package org.jointwalk.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Message;
import org.jointwalk.protocol.Request;
import org.junit.jupiter.api.Test;

/** How a fixture is met: what is said of one that cannot be used. */
class GreetingTest {

  private final Bench bench = new Bench();
  private final PeerFixture peer = bench.peer;

  private Found look() {
    return new Finder(bench.ticks, new SplittableRandom(2), LinkSettings.DEFAULTS).look(peer);
  }

  private void assertUnusable(Found.Why why, String... words) {
    Found found = look();
    assertThat(found).isInstanceOf(Found.Unusable.class);
    assertThat(((Found.Unusable) found).why()).isEqualTo(why);
    assertThat(((Found.Unusable) found).text()).contains(words);
    assertThatThrownBy(bench::open).hasMessage(((Found.Unusable) found).text());
  }

  @Test
  void fixtureSaysWhoItIs() {
    Found.Ready found = (Found.Ready) look();

    assertThat(found.version()).isEqualTo(1);
    assertThat(found.capabilities().identity()).isEqualTo(Bench.WIRED.capabilities().identity());
    assertThat(found.channels()).isEqualTo(Bench.WIRED.channels().size());
    assertThat(found.lid()).isEqualTo(Found.Lid.CLOSED);
  }

  @Test
  void silentPortIsAskedSevenTimes() {
    peer.silent = true;

    assertUnusable(Found.Why.SILENT, "peer does not answer: asked 7 times in 2100 ms", "power");
    assertThat(peer.arrived()).hasSize(14).allMatch(Request.Hello.class::isInstance);
  }

  @Test
  void lateFirstAnswerIsWaitedFor() throws Exception {
    long begun = bench.ticks.nanos();
    peer.losesHost = m -> bench.ticks.nanos() - begun < 1_500_000_000L;

    bench.open().close();
  }

  @Test
  void garbageIsToldFromSilence() {
    peer.garbage = "login: \0".getBytes(StandardCharsets.UTF_8);

    assertUnusable(Found.Why.GARBAGE, "make no sense", "115200 baud");
  }

  @Test
  void lineThatEchoesIsToldFromGarbage() {
    peer.echoes = true;

    assertUnusable(Found.Why.GARBAGE, "peer echoes what is sent to it");
  }

  @Test
  void otherVersionIsNamed() {
    peer.version = 3;

    assertUnusable(Found.Why.OTHER_VERSION, "speaks version 3 to 3", "this program version 1");
  }

  @Test
  void otherProgramIsNamedWithItsLastWord() {
    peer.busy = true;

    assertUnusable(Found.Why.BUSY, "Another program is measuring", "120 ms ago");
  }

  @Test
  void programThatWasKilledAMomentAgoIsWaitedFor() throws Exception {
    peer.busy = true;
    long begun = bench.ticks.nanos();
    peer.otherHeard = () -> (bench.ticks.nanos() - begun) / 1_000_000;
    peer.losesHost =
        m -> {
          peer.busy = bench.ticks.nanos() - begun < 1_200_000_000L;
          return false;
        };

    bench.open().close();
  }

  @Test
  void programThatIsAliveIsNotWaitedFor() {
    peer.busy = true;
    long begun = bench.ticks.nanos();

    assertThatThrownBy(bench::open).isInstanceOf(FixtureException.Unreachable.class);
    assertThat(bench.ticks.nanos() - begun).isLessThan(500_000_000L);
  }

  @Test
  void missingPortIsNamed() {
    peer.vanish();

    assertUnusable(Found.Why.MISSING, "No port peer.");
  }

  @Test
  void capabilitiesWithAnotherCheckThanGivenAreNotBelieved() {
    peer.wrongCheck = true;

    assertUnusable(Found.Why.BROKEN, "does not keep to the protocol", "M36");
  }

  private void assertMismatch(FixtureMap map, String... words) {
    assertThatThrownBy(() -> bench.open(map))
        .isInstanceOf(FixtureException.Mismatch.class)
        .hasMessageContainingAll(words);
  }

  private static FixtureMap with(String identity, String calibration) {
    Capabilities a = Bench.WIRED.capabilities();
    return new FixtureMap(
        "other",
        Bench.WIRED.device(),
        new Capabilities(
            identity,
            a.build(),
            calibration,
            a.switching(),
            a.kelvin(),
            a.banks(),
            a.readers(),
            a.ranges(),
            a.path(),
            a.probes(),
            a.ratings()),
        Bench.WIRED.channels(),
        Set.of());
  }

  @Test
  void fixtureOfAnotherMapIsNotUsed() {
    Capabilities able = Bench.WIRED.capabilities();

    assertMismatch(
        with("gull-7", able.calibration()),
        "says identity \"" + able.identity() + "\"",
        "the map other is for \"gull-7\"");
    assertMismatch(
        with(able.identity(), "2024-01"), "calibration", "the map other is for \"2024-01\"");
  }

  @Test
  void fixtureWithTooFewChannelsIsNotUsed() {
    peer.channels = 100;

    assertMismatch(
        Bench.WIRED,
        "has 100 channels",
        "wires " + Bench.WIRED.channels().size(),
        "missing boards");
  }

  @Test
  void textOfAFixtureCannotSteerTheTerminal() {
    assertThat(Words.shown("a\u001b[2Jb\u202ec")).isEqualTo("a\u00b7[2Jb\u00b7c");
  }

  @Test
  void staleFramesOfAnOlderSessionAreDropped() throws Exception {
    LinkFixture first = bench.open();
    first.clamping();
    Message last = peer.arrived().get(peer.arrived().size() - 1);
    assertThat(last).isInstanceOf(Request.Status.class);
    peer.stale = Optional.of(new Answer.Refused(1, 8, 5));

    bench.open().close();
    first.close();
  }
}
