package org.jointwalk.protocol;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jointwalk.fixture.Capabilities;
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

/** Capability records as the items that a fixture says one by one (8.2), and back. Stateless. */
public final class CapabilityItems {

  private static final int IDENTITY = 0x01;
  private static final int BUILD = 0x02;
  private static final int CALIBRATION = 0x03;
  private static final int SWITCHING = 0x04;
  private static final int RANGE = 0x05;
  private static final int PATH = 0x06;
  private static final int PROBES = 0x07;
  private static final int RATINGS = 0x08;

  private static final int MOST_TEXT = 64;

  /** In the order of their codes on the line. */
  private static final List<Switching> SWITCHINGS =
      List.of(Switching.MULTIPLEXER, Switching.REST_TO_GUARD, Switching.MATRIX, Switching.HAND);

  private static final List<Kelvin> KELVINS = List.of(Kelvin.NONE, Kelvin.TAIL, Kelvin.TIP);

  private static final double NANO = 1e9;
  private static final double MICRO = 1e6;
  private static final double PICO = 1e12;
  private static final double FEMTO = 1e15;
  private static final double MILLI = 1e3;

  private CapabilityItems() {}

  /**
   * What a fixture says of itself.
   *
   * @param able what it can do
   * @param channels how many it has; a fixture that joins channels joins any number of them
   * @throws IllegalArgumentException when a number or text does not fit
   */
  public static List<Item> of(Capabilities able, int channels) {
    List<Item> items = new ArrayList<>();
    items.add(text(IDENTITY, "the identity", able.identity()));
    items.add(text(BUILD, "the build", able.build()));
    items.add(text(CALIBRATION, "the calibration", able.calibration()));
    items.add(switching(able, channels));
    able.ranges().forEach((kind, range) -> items.add(range(kind, range)));
    Path path = able.path();
    items.add(
        new Item(
            PATH,
            new Out()
                .u32(Units.fine("high_ohms", path.highOhms().value(), MICRO))
                .u32(Units.fine("low_ohms", path.lowOhms().value(), MICRO))
                .u32(Units.fine("sd_ohms", path.sd().value(), MICRO))
                .u32(Units.fine("leakage", path.leakage().value(), FEMTO))
                .u32(Units.fine("operate", path.operateSeconds(), NANO))
                .u32(Units.fine("release", path.releaseSeconds(), NANO))
                .done()));
    items.add(
        new Item(
            PROBES,
            new Out()
                .u32(Units.fine("typical_ohms", able.probes().typical().value(), MICRO))
                .u32(Units.fine("sd_ohms", able.probes().sd().value(), MICRO))
                .done()));
    Ratings ratings = able.ratings();
    Ranges.u32("closures", ratings.closures());
    items.add(
        new Item(
            RATINGS,
            new Out()
                .u32(Units.volt(ratings.clamp().value()))
                .u32(ratings.closures())
                .u32(Units.fine("watts", ratings.watts(), MILLI))
                .done()));
    return List.copyOf(items);
  }

  private static Item text(int tag, String what, String text) {
    Ranges.text(what, text, 1, MOST_TEXT);
    return new Item(tag, Bytes.of(text.getBytes(StandardCharsets.UTF_8)));
  }

  private static Item switching(Capabilities able, int channels) {
    Ranges.check("channels", channels, 1, Ranges.U16);
    Ranges.check("banks", able.banks(), 1, Ranges.U16);
    Ranges.check("readers", able.readers(), 1, Ranges.U16);
    boolean groups = able.switching().groups();
    boolean rest = able.switching() == Switching.REST_TO_GUARD;
    return new Item(
        SWITCHING,
        new Out()
            .u8(SWITCHINGS.indexOf(able.switching()))
            .u8(KELVINS.indexOf(able.kelvin()))
            .u16(able.banks())
            .u16(able.readers())
            .u16(groups ? channels : 1)
            .u16(groups || rest ? channels : 1)
            .zeros(3)
            .done());
  }

  private static Item range(Kind kind, Range range) {
    return new Item(
        RANGE,
        new Out()
            .u8(KindCode.of(kind))
            .u32(Units.amp(range.current().value()))
            .u32(Units.volt(range.compliance().value()))
            .u32(Units.fine("gain", range.gain(), NANO))
            .u32(Units.fine("offset", range.offset().value(), NANO))
            .u32(Units.fine("noise", range.noise().value(), NANO))
            .u32(Units.fine("current noise", range.currentNoise().value(), PICO))
            .u32(Units.fine("seconds", range.seconds(), MICRO))
            .done());
  }

  /** The check that WELCOME carries over all items (M36). */
  public static long check(List<Item> items) {
    Out out = new Out();
    items.forEach(item -> item.write(out));
    byte[] all = out.done().toArray();
    return Crc.of(all, 0, all.length);
  }

  /**
   * As many whole items as fit one frame.
   *
   * @param items all of them
   * @param first number of the first one wanted, below their count
   */
  public static Answer.Page page(List<Item> items, int first) {
    int room = Frame.MOST_PAYLOAD - 2;
    int next = first;
    while (next < items.size() && items.get(next).size() <= room) {
      room -= items.get(next).size();
      next++;
    }
    return new Answer.Page(first, items.size(), items.subList(first, next));
  }

  /**
   * The record behind the items of a fixture; items that may be ignored are.
   *
   * @throws BreachException when an item is missing, unknown, twice or wrong
   */
  public static Capabilities read(List<Item> items) throws BreachException {
    Map<Integer, Item> single = new HashMap<>();
    Map<Kind, Range> ranges = new EnumMap<>(Kind.class);
    for (Item item : items) {
      if (item.mayBeIgnored()) {
        continue;
      }
      if (item.tag() > RATINGS || item.tag() < IDENTITY) {
        throw breach("the fixture has a capability " + item.tag() + " that must be understood");
      }
      try {
        boolean twice =
            item.tag() == RANGE ? !range(item, ranges) : single.put(item.tag(), item) != null;
        if (twice) {
          throw breach("the fixture says capability " + item.tag() + " twice");
        }
      } catch (Malformed | IllegalArgumentException e) {
        throw wrong(item);
      }
    }
    return new Capabilities(
        text(single, IDENTITY),
        text(single, BUILD),
        text(single, CALIBRATION),
        SWITCHINGS.get(code(single, 0, SWITCHINGS.size())),
        KELVINS.get(code(single, 1, KELVINS.size())),
        half(single, 2),
        half(single, 4),
        ranges,
        path(single),
        probes(single),
        ratings(single));
  }

  /** Adds a range unless its kind has one. */
  private static boolean range(Item item, Map<Kind, Range> ranges) throws Malformed {
    In in = open(item, 29);
    Kind kind = KindCode.read(in);
    Range range =
        new Range(
            new Amps(Units.amps(in.measure())),
            new Volts(Units.volts(in.measure())),
            in.u32() / NANO,
            new Volts(in.u32() / NANO),
            new Volts(in.u32() / NANO),
            new Amps(in.u32() / PICO),
            in.u32() / MICRO);
    return ranges.put(kind, range) == null;
  }

  private static In open(Item item, int size) throws Malformed {
    In in = new In(item.value().toArray(), 0, item.value().size());
    in.exactly(size);
    return in;
  }

  private static Item find(Map<Integer, Item> single, int tag) throws BreachException {
    Item item = single.get(tag);
    if (item == null) {
      throw breach("the fixture does not say capability " + tag);
    }
    return item;
  }

  private static String text(Map<Integer, Item> single, int tag) throws BreachException {
    Item item = find(single, tag);
    try {
      In.ask(item.value().size() >= 1 && item.value().size() <= MOST_TEXT);
      return In.text(item.value());
    } catch (Malformed e) {
      throw wrong(item);
    }
  }

  private static Bytes switching(Map<Integer, Item> single) throws BreachException {
    Item item = find(single, SWITCHING);
    if (item.value().size() != 13) {
      throw wrong(item);
    }
    return item.value();
  }

  private static int code(Map<Integer, Item> single, int at, int codes) throws BreachException {
    int code = switching(single).at(at);
    if (code >= codes) {
      throw wrong(find(single, SWITCHING));
    }
    return code;
  }

  private static int half(Map<Integer, Item> single, int at) throws BreachException {
    Bytes value = switching(single);
    int number = value.at(at) | (value.at(at + 1) << 8);
    if (number == 0) {
      throw wrong(find(single, SWITCHING));
    }
    return number;
  }

  private static Path path(Map<Integer, Item> single) throws BreachException {
    Item item = find(single, PATH);
    try {
      In in = open(item, 24);
      return new Path(
          new Ohms(in.u32() / MICRO),
          new Ohms(in.u32() / MICRO),
          new Ohms(in.u32() / MICRO),
          new Amps(in.u32() / FEMTO),
          in.u32() / NANO,
          in.u32() / NANO);
    } catch (Malformed e) {
      throw wrong(item);
    }
  }

  private static ProbeQuality probes(Map<Integer, Item> single) throws BreachException {
    Item item = find(single, PROBES);
    try {
      In in = open(item, 8);
      return new ProbeQuality(new Ohms(in.u32() / MICRO), new Ohms(in.u32() / MICRO));
    } catch (Malformed e) {
      throw wrong(item);
    }
  }

  private static Ratings ratings(Map<Integer, Item> single) throws BreachException {
    Item item = find(single, RATINGS);
    try {
      In in = open(item, 12);
      return new Ratings(new Volts(Units.volts(in.measure())), in.u32(), in.u32() / MILLI);
    } catch (Malformed e) {
      throw wrong(item);
    }
  }

  private static BreachException wrong(Item item) {
    return breach("capability " + item.tag() + " of the fixture cannot be " + item.value());
  }

  private static BreachException breach(String what) {
    return new BreachException("M37", what);
  }
}
