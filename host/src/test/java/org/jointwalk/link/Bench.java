package org.jointwalk.link;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;

/** A peer, a fixture that speaks to it, and what was kept. */
public final class Bench {

  static final PadMap PADS = SaltmarshS2.map();
  static final FixtureMap WIRED = FixtureMaps.photoRelay(PADS);
  static final Assembly ASSEMBLY =
      new Assembly(
          PADS, PADS.interposers().get(0), SetUp.named("interposer-on-lower").orElseThrow());

  /** Shared: two sessions with one nonce would be one. */
  private final SplittableRandom random = new SplittableRandom(1);

  final HandTicks ticks = new HandTicks();
  public final PeerFixture peer = new PeerFixture(WIRED, ticks);
  final List<Batch> kept = new ArrayList<>();

  public LinkFixture open() throws FixtureException {
    return open(WIRED);
  }

  LinkFixture open(FixtureMap map) throws FixtureException {
    return LinkFixture.open(peer, ASSEMBLY, map, ticks, random, LinkSettings.DEFAULTS);
  }

  static Scan scan(int steps) {
    List<Contact> contacts =
        WIRED.contacts().stream().filter(ASSEMBLY.contacts()::contains).toList();
    List<Step> list = new ArrayList<>();
    for (int i = 0; i < steps; i++) {
      list.add(
          new Step(
              Kind.NORMAL_LEVEL,
              List.of(contacts.get(i % contacts.size())),
              List.of(contacts.get((i + 1) % contacts.size())),
              List.of(new Amps(0.01)),
              new Volts(0.05),
              1));
    }
    return Scan.of("interposer-on-lower", list);
  }

  /** Indices of what was kept, in that order. */
  List<Integer> indices() {
    return kept.stream().flatMap(b -> b.readings().stream()).map(Reading::index).toList();
  }

  /** Indices as the peer put them into the voltages. */
  List<Integer> voltages() {
    return kept.stream()
        .flatMap(b -> b.readings().stream())
        .map(r -> (int) Math.round(((Reading.Measured) r).points().get(0).volts() * 1e8))
        .toList();
  }
}
