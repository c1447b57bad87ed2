package org.jointwalk.upkeep;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Selfcheck;
import org.jointwalk.fixture.Selfcheck.What;
import org.jointwalk.job.FixtureRecord;
import org.jointwalk.joblog.MemoryJobLog;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Specimen;
import org.jointwalk.stack.Specimen.Pole;
import org.jointwalk.stack.Specimen.Trouble;
import org.junit.jupiter.api.Test;

class UpkeepTest {

  private static final Instant THEN = Instant.parse("2026-03-01T08:00:00Z");
  private static final PadMap MAP = SaltmarshS2.map();
  private static final FixtureMap PHOTO = FixtureMaps.photoRelay(MAP);
  private static final Contact SOME = List.copyOf(PHOTO.contacts()).get(9);

  private final MemoryJobLog log = new MemoryJobLog(InstantSource.fixed(THEN), ZoneId.of("UTC"));

  private Upkeep upkeep(Trouble... troubles) {
    return upkeep(PHOTO, troubles);
  }

  private Upkeep upkeep(FixtureMap wired, Trouble... troubles) {
    VirtualFixture fixture =
        new VirtualFixture(
            MAP,
            new Specimen(
                MAP.interposers().get(0).variant(), 3, Defects.NONE, List.of(), List.of(troubles)),
            wired,
            VirtualFixture.Conditions.CALM);
    return new Upkeep(log, new Hands(fixture), new Order(wired, "00", "AB", "test"));
  }

  private Trust trust(long days) {
    return Trust.in(
        FixtureRecord.read(log, PHOTO.capabilities().identity()),
        PHOTO.capabilities(),
        THEN.plus(Duration.ofDays(days)),
        Duration.ofDays(90));
  }

  @Test
  void deadLidSlowRelaysAndNoiseAreFoundInTheEmptyFixture() throws Exception {
    Selfcheck check =
        upkeep(new Trouble.DeadLid(), new Trouble.Slow(0.02), new Trouble.Noisy(5)).check(false);

    assertThat(check.faults())
        .extracting(Selfcheck.Fault::what)
        .containsExactlyInAnyOrder(What.LID, What.SETTLING, What.NOISE);
  }

  @Test
  void relayThatNeverOpensStopsAPassAndIsNamed() throws Exception {
    upkeep(new Trouble.RelayClosed(SOME, Pole.LOW)).check(false);

    assertThat(trust(1).wrong())
        .singleElement()
        .satisfies(
            fault -> {
              assertThat(fault.what()).isEqualTo(What.LOW_STUCK_CLOSED);
              assertThat(fault.contact()).contains(SOME);
              assertThat(fault.channel()).contains(9);
            });
  }

  @Test
  void contactWhoseRelayNeverClosesIsLeftOutOfAPass() throws Exception {
    upkeep(new Trouble.RelayOpen(SOME, Pole.HIGH)).check(true);

    assertThat(trust(1).blind()).containsExactly(SOME);
    assertThat(trust(1).wrong()).isEmpty();
  }

  @Test
  void zeroIsTakenUntilItIsOld() throws Exception {
    upkeep().zero(THEN, Optional.of(21.0));

    assertThat(trust(90).zero()).isPresent();
    assertThat(trust(91).zero()).isEmpty();
    assertThat(trust(91).remarks()).anyMatch(r -> r.contains("91 days old"));
  }

  @Test
  void zeroWithARelayThatNeverOpensIsInDoubt() throws Exception {
    assertThat(
            upkeep(new Trouble.RelayClosed(SOME, Pole.HIGH)).zero(THEN, Optional.empty()).doubts())
        .anyMatch(doubt -> doubt.contains("stuck closed"));
    assertThat(trust(1).zero()).isEmpty();
  }

  @Test
  void fixtureThatReadsBehindItsSwitchesHasNothingToZero() {
    FixtureMap tail = FixtureMaps.relayMatrix(MAP);

    assertThatThrownBy(() -> upkeep(tail).zero(THEN, Optional.empty()))
        .isInstanceOf(StoppedException.class)
        .hasMessageContaining("nothing to zero");
    assertThat(FixtureRecord.read(log, tail.capabilities().identity()).timeline()).isEmpty();
  }

  /** Lays and lifts without being asked twice. */
  private record Hands(VirtualFixture fixture) implements Stand {

    @Override
    public Fixture lay(SetUp setUp) {
      fixture.clamp(setUp, List.of());
      return fixture;
    }

    @Override
    public boolean again() {
      fixture.reseat();
      return true;
    }

    @Override
    public boolean hasLid() {
      return true;
    }

    @Override
    public void progress(String what, int taken, int of) {
      // Nobody looks on.
    }

    @Override
    public void remark(String text) {
      // What matters is in the result.
    }
  }
}
