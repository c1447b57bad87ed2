package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.random.RandomGenerator;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Role;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.SmallMap;

/** A small ring on a fixture, wired plainly, and steps for it. */
final class Bench {

  private static final int PADS = 40;

  private final Assembly assembly;
  private final FixtureMap fixture;

  /**
   * @param sense whether every contact has a sense wire too
   */
  Bench(String setUp, Switching switching, boolean sense) {
    SmallMap map =
        new SmallMap()
            .net("GND", Role.GROUND)
            .net("CORE", Role.RAIL, "unknown", 0.8, true)
            .net("MAIN", Role.RAIL, "unknown", 3.7, true)
            .net("ANT", Role.SIGNAL, "radio", 0, true)
            .net("BUS", Role.SIGNAL, "unknown", 1.8, true)
            .net("NC", Role.UNUSED);
    List<String> nets = List.of("GND", "CORE", "MAIN", "ANT", "BUS", "NC");
    for (int i = 0; i < PADS; i++) {
      map.pad("N" + i, nets.get(i % nets.size()));
    }
    assembly = map.in(setUp);
    List<Channel> channels = new ArrayList<>();
    for (Contact contact : assembly.contacts()) {
      channels.add(new Channel(channels.size(), contact, Channel.Use.FORCE));
    }
    if (sense) {
      for (Contact contact : assembly.contacts()) {
        channels.add(new Channel(channels.size(), contact, Channel.Use.SENSE));
      }
    }
    fixture =
        new FixtureMap("bench", "Test ring", Instruments.ideal(switching), channels, Set.of());
  }

  Assembly assembly() {
    return assembly;
  }

  FixtureMap fixture() {
    return fixture;
  }

  Wiring wiring() {
    return new Wiring(fixture);
  }

  int channels() {
    return fixture.channels().size();
  }

  Declaration declaration() {
    return Declaration.of(assembly, fixture, channels());
  }

  Answer.Welcome limits(int steps, int settings, int sets) {
    return new Answer.Welcome(
        1, 1, 0, 0, 0, 0, 0, 0, 252, channels(), steps, settings, sets, 24, 0, 0, 0, 0);
  }

  List<Contact> contacts() {
    return List.copyOf(assembly.contacts());
  }

  /** A step that the protocol can say; between groups now and then when they can be joined. */
  Step step(RandomGenerator random, boolean groups, boolean rest) {
    List<Contact> free = new ArrayList<>(contacts());
    Contact a = free.remove(random.nextInt(free.size()));
    if (rest && random.nextInt(3) == 0) {
      return step(Kind.ISOLATION, List.of(a), free, 1);
    }
    Contact b = free.remove(random.nextInt(free.size()));
    List<Contact> high = new ArrayList<>(List.of(a));
    List<Contact> low = new ArrayList<>(List.of(b));
    if (groups && random.nextInt(3) == 0) {
      for (Contact contact : free) {
        int side = random.nextInt(4);
        if (side < 2) {
          (side == 0 ? high : low).add(contact);
        }
      }
    }
    Kind kind = List.of(Kind.values()).get(random.nextInt(Kind.values().length));
    return kind == Kind.ALL_OPEN
        ? step(kind, List.of(), List.of(), 1)
        : step(kind, sorted(high), sorted(low), kind == Kind.JUNCTION ? 1 : random.nextInt(1, 4));
  }

  /** In the order of the channels, which is the order in which a fixture names them. */
  private List<Contact> sorted(List<Contact> some) {
    return contacts().stream().filter(some::contains).toList();
  }

  private static Step step(Kind kind, List<Contact> high, List<Contact> low, int samples) {
    List<Amps> currents =
        switch (kind) {
          case LOW_LEVEL, NORMAL_LEVEL -> List.of(new Amps(0.012));
          case JUNCTION -> List.of(new Amps(0.05e-3), new Amps(0.224e-3), new Amps(1e-3));
          default -> List.of();
        };
    return new Step(kind, high, low, currents, new Volts(0.05), samples);
  }
}
