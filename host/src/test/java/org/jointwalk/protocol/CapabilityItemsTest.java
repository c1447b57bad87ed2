package org.jointwalk.protocol;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Path;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Ratings;
import org.jointwalk.fixture.Switching;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;

class CapabilityItemsTest {

  private static List<Capabilities> committed() {
    return List.of(
            FixtureMaps.photoRelay(SaltmarshS2.map()),
            FixtureMaps.relayMatrix(SaltmarshS2.map()),
            FixtureMaps.fourBus(SaltmarshS2.map()))
        .stream()
        .map(FixtureMap::capabilities)
        .toList();
  }

  @Test
  void fixturesOfTheDemoComeBackToTheLastBit() throws BreachException {
    for (Capabilities able : committed()) {
      assertThat(CapabilityItems.read(CapabilityItems.of(able, 1760))).isEqualTo(able);
    }
  }

  @Test
  void anyFixtureInWholeUnitsComesBackToTheLastBit() {
    Trials.of(
        1000,
        random -> {
          Map<Kind, Range> ranges = new EnumMap<>(Kind.class);
          for (Kind kind : Kind.values()) {
            if (random.nextBoolean()) {
              ranges.put(
                  kind,
                  new Range(
                      new Amps(random.nextInt(1, Integer.MAX_VALUE) / 1e10),
                      new Volts(random.nextInt(1, Integer.MAX_VALUE) / 1e8),
                      random.nextLong(1L << 32) / 1e9,
                      new Volts(random.nextLong(1L << 32) / 1e9),
                      new Volts(random.nextLong(1L << 32) / 1e9),
                      new Amps(random.nextLong(1L << 32) / 1e12),
                      random.nextLong(1, 1L << 32) / 1e6));
            }
          }
          Capabilities able =
              new Capabilities(
                  "marsh-" + random.nextInt(),
                  "build \u03a9",
                  "c".repeat(random.nextInt(1, 65)),
                  List.of(Switching.values()).get(random.nextInt(4)),
                  List.of(Kelvin.values()).get(random.nextInt(3)),
                  random.nextInt(1, 65536),
                  random.nextInt(1, 65536),
                  ranges,
                  new Path(
                      new Ohms(random.nextLong(1L << 32) / 1e6),
                      new Ohms(0),
                      new Ohms(random.nextLong(1L << 32) / 1e6),
                      new Amps(random.nextLong(1L << 32) / 1e15),
                      random.nextLong(1L << 32) / 1e9,
                      random.nextLong(1L << 32) / 1e9),
                  new ProbeQuality(new Ohms(random.nextLong(1L << 32) / 1e6), new Ohms(0)),
                  new Ratings(
                      new Volts(random.nextInt(Integer.MAX_VALUE) / 1e8),
                      random.nextLong(1L << 32),
                      random.nextLong(1L << 32) / 1e3));

          assertThat(CapabilityItems.read(CapabilityItems.of(able, 100))).isEqualTo(able);
        });
  }

  @Test
  void pagesBringEveryItemOnceAndAgreeWithTheCheck() {
    for (Capabilities able : committed()) {
      List<Item> items = CapabilityItems.of(able, 1760);
      List<Item> got = new ArrayList<>();
      int pages = 0;
      while (got.size() < items.size()) {
        Answer.Page page = CapabilityItems.page(items, got.size());
        assertThat(new Frame(1, 1, page).raw().size()).isLessThanOrEqualTo(Frame.MOST_RAW);
        assertThat(page.total()).isEqualTo(items.size());
        got.addAll(page.items());
        pages++;
      }

      assertThat(got).isEqualTo(items);
      assertThat(CapabilityItems.check(got)).isEqualTo(CapabilityItems.check(items));
      assertThat(pages).isLessThanOrEqualTo(3);
    }
  }

  @Test
  void itemsThatMayBeIgnoredAreAndOthersAreNot() throws BreachException {
    Capabilities able = committed().get(0);
    List<Item> items = new ArrayList<>(CapabilityItems.of(able, 880));
    items.add(0, new Item(0x81, Bytes.ofHex("000010000000")));
    items.add(new Item(0xFF, Bytes.NONE));
    assertThat(CapabilityItems.read(items)).isEqualTo(able);

    items.add(new Item(0x09, Bytes.NONE));
    assertThatThrownBy(() -> CapabilityItems.read(items))
        .isInstanceOf(BreachException.class)
        .hasMessageContaining("capability 9 that must be understood")
        .extracting(e -> ((BreachException) e).clause())
        .isEqualTo("M37");
  }

  @Test
  void everyItemThatIsMissingTwiceOrWrongIsNamed() {
    List<Item> items = CapabilityItems.of(committed().get(0), 880);
    for (int i = 0; i < items.size(); i++) {
      Item item = items.get(i);
      List<Item> twice = new ArrayList<>(items);
      twice.add(item);
      assertThatThrownBy(() -> CapabilityItems.read(twice)).hasMessageContaining("twice");

      List<Item> empty = new ArrayList<>(items);
      empty.set(i, new Item(item.tag(), Bytes.NONE));
      assertThatThrownBy(() -> CapabilityItems.read(empty))
          .isInstanceOf(BreachException.class)
          .hasMessageContaining("capability " + item.tag());

      if (item.tag() != 0x05) {
        List<Item> missing = new ArrayList<>(items);
        missing.remove(i);
        assertThatThrownBy(() -> CapabilityItems.read(missing))
            .hasMessageContaining("does not say capability " + item.tag());
      }
    }
  }

  @Test
  void anyItemsAtAllAreReadOrNamedABreach() {
    List<Item> good = CapabilityItems.of(committed().get(1), 1760);
    Trials.of(
        5000,
        random -> {
          List<Item> items = new ArrayList<>(good);
          for (int i = random.nextInt(3); i >= 0; i--) {
            byte[] value = new byte[random.nextInt(40)];
            random.nextBytes(value);
            items.set(random.nextInt(items.size()), new Item(random.nextInt(12), Bytes.of(value)));
          }
          try {
            assertThat(CapabilityItems.read(items)).isNotNull();
          } catch (BreachException e) {
            assertThat(e.clause()).isEqualTo("M37");
          }
        });
  }

  @Test
  void whatDoesNotFitIsSaid() {
    Capabilities able = committed().get(0);
    Capabilities loud =
        new Capabilities(
            "i".repeat(65),
            able.build(),
            able.calibration(),
            able.switching(),
            able.kelvin(),
            1,
            1,
            able.ranges(),
            able.path(),
            able.probes(),
            able.ratings());

    assertThatThrownBy(() -> CapabilityItems.of(loud, 880))
        .hasMessageContaining("the identity is 65; allowed is 1 to 64");
  }
}
