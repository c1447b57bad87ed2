package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.random.RandomGenerator;
import java.util.stream.Collectors;
import org.jointwalk.fixture.Kind;

/** Draws messages of every kind, with a liking for the ends of their ranges. */
public final class RandomMessages {

  private final RandomGenerator random;

  private RandomMessages(RandomGenerator random) {
    this.random = random;
  }

  /** How to draw a message, by the name of its kind. */
  public static Map<String, Function<RandomGenerator, Message>> kinds() {
    Map<String, Function<RandomMessages, Message>> kinds = new LinkedHashMap<>();
    kinds.put("HELLO", RandomMessages::hello);
    kinds.put("CAPABILITIES", r -> new Request.Capabilities(r.upTo(255)));
    kinds.put("DECLARE", RandomMessages::declare);
    kinds.put("CHANNELS", RandomMessages::channels);
    kinds.put("RUN", RandomMessages::run);
    kinds.put("STOP", r -> new Request.Stop());
    kinds.put("STATUS", r -> new Request.Status());
    kinds.put("SETTING", RandomMessages::setting);
    kinds.put("SET bits", RandomMessages::setBits);
    kinds.put("SET change", RandomMessages::setChange);
    kinds.put("STEPS", RandomMessages::steps);
    kinds.put("CREDIT", r -> new Streamed.Credit(r.u32(), r.u32()));
    kinds.put("REFUSED", r -> new Answer.Refused(r.upTo(255), 1 + r.upTo(65534), r.u32()));
    kinds.put("WELCOME", RandomMessages::welcome);
    kinds.put("PAGE", RandomMessages::page);
    kinds.put("DECLARED", r -> new Answer.Declared(r.u32()));
    kinds.put("STATE", RandomMessages::state);
    kinds.put("RESULTS", RandomMessages::results);
    kinds.put("BITS", RandomMessages::bits);
    kinds.put("CHECK", RandomMessages::check);
    kinds.put("HEARD", RandomMessages::heard);
    kinds.put("END", r -> new Notice.End(r.account(1 + r.upTo(254))));
    kinds.put("EVENT", r -> new Notice.Event(r.upTo(255), r.u32(), r.u32()));
    return kinds.entrySet().stream()
        .collect(
            Collectors.toMap(
                Map.Entry::getKey,
                kind -> drawn -> kind.getValue().apply(new RandomMessages(drawn)),
                (a, b) -> a,
                LinkedHashMap::new));
  }

  private int upTo(int most) {
    return switch (random.nextInt(6)) {
      case 0 -> 0;
      case 1 -> most;
      default -> (int) random.nextLong(most + 1L);
    };
  }

  private long u32() {
    return upTo(Integer.MAX_VALUE) * 2L + random.nextInt(2);
  }

  private int measure() {
    return random.nextBoolean() ? upTo(Integer.MAX_VALUE) : -upTo(Integer.MAX_VALUE);
  }

  private <T> T pick(List<T> list) {
    return list.get(random.nextInt(list.size()));
  }

  private <T> List<T> several(int least, int most, Supplier<T> one) {
    List<T> list = new ArrayList<>();
    int count = least + upTo(most - least);
    for (int i = 0; i < count; i++) {
      list.add(one.get());
    }
    return list;
  }

  private Bytes bytes(int least, int most) {
    byte[] bytes = new byte[least + upTo(most - least)];
    random.nextBytes(bytes);
    return Bytes.of(bytes);
  }

  private Request.Hello hello() {
    int lowest = 1 + upTo(254);
    return new Request.Hello(
        lowest,
        lowest + upTo(255 - lowest),
        random.nextBoolean(),
        ((long) upTo(65535) << 16) | (1 + upTo(65534)),
        u32());
  }

  private Request.Declare declare() {
    boolean board = random.nextBoolean();
    Set<Request.Part> parts =
        board
            ? Set.of(Request.Part.UPPER_BOARD, Request.Part.INTERPOSER)
            : Set.of(Request.Part.SHORTING_PLATE);
    List<Touch.Kind> kinds =
        board
            ? List.of(Touch.Kind.GROUND, Touch.Kind.RAIL, Touch.Kind.SIGNAL)
            : List.of(Touch.Kind.BARE);
    return new Request.Declare(
        parts,
        "n".repeat(1 + upTo(29)) + (random.nextBoolean() ? "\u03a9" : ""),
        several(
            0,
            15,
            () ->
                new Touch(
                    pick(kinds),
                    random.nextBoolean(),
                    random.nextBoolean(),
                    upTo(Integer.MAX_VALUE))));
  }

  private Request.Channels channels() {
    List<Integer> places = several(1, 474, () -> upTo(15));
    return new Request.Channels(upTo((65535 - places.size()) / 2) * 2, places);
  }

  private Request.Run run() {
    long first = u32() / 2;
    return new Request.Run(1 + u32() / 2, first, 1 + u32() / 2 % (first + 1), u32(), u32());
  }

  private Streamed.Setting setting() {
    Kind kind = pick(List.of(Kind.values()));
    int samples = kind == Kind.JUNCTION ? 1 : 1 + upTo(23);
    int most = kind == Kind.JUNCTION ? 1 : samples + upTo(24 - samples);
    Supplier<Integer> current = () -> random.nextBoolean() ? 1 + upTo(2_000_000_000) : -1;
    List<Integer> currents =
        switch (kind) {
          case LOW_LEVEL, NORMAL_LEVEL -> several(1, 1, current);
          case JUNCTION -> several(1, 3, current);
          default -> List.of();
        };
    return new Streamed.Setting(
        u32(),
        upTo(127),
        kind,
        random.nextBoolean(),
        samples,
        most,
        upTo(Integer.MAX_VALUE),
        currents,
        u32(),
        u32(),
        u32(),
        u32(),
        several(0, 4, () -> new Item(upTo(255), bytes(0, 40))));
  }

  private Streamed.SetBits setBits() {
    return new Streamed.SetBits(
        u32(), upTo(255), random.nextBoolean(), upTo(8191) * 8, bytes(1, 233));
  }

  private Streamed.SetChange setChange() {
    return new Streamed.SetChange(u32(), upTo(255), upTo(255), several(0, 117, () -> upTo(65535)));
  }

  private Terminal terminal(boolean rest) {
    return switch (random.nextInt(rest ? 4 : 3)) {
      case 0 -> new Terminal.Nothing();
      case 1 -> new Terminal.Channel(upTo(65535));
      case 2 -> new Terminal.Group(upTo(65535));
      default -> new Terminal.Rest();
    };
  }

  private Streamed.Steps steps() {
    return new Streamed.Steps(
        u32(),
        u32(),
        several(
            1,
            23,
            () ->
                new WireStep(
                    upTo(127),
                    random.nextBoolean(),
                    terminal(false),
                    terminal(true),
                    terminal(false),
                    terminal(false))));
  }

  private Answer.Welcome welcome() {
    return new Answer.Welcome(
        1 + upTo(254),
        u32(),
        random.nextLong() & Long.MAX_VALUE,
        upTo(255),
        random.nextLong(),
        upTo(2),
        u32(),
        u32(),
        252 + upTo(65535 - 252),
        1 + upTo(65534),
        16 + upTo(65535 - 16),
        8 + upTo(120),
        random.nextBoolean() ? 0 : 4 + upTo(251),
        1 + upTo(23),
        upTo(Integer.MAX_VALUE),
        u32(),
        u32(),
        u32());
  }

  private Answer.Page page() {
    int first = upTo(250);
    List<Item> items = several(1, 5, () -> new Item(upTo(255), bytes(0, 45)));
    return new Answer.Page(first, first + items.size() + upTo(255 - first - items.size()), items);
  }

  private Account account(int end) {
    return new Account(
        1 + u32() / 2, upTo(65535), end, upTo(65535), u32(), u32(), u32(), u32(), upTo(65535));
  }

  private Answer.State state() {
    return new Answer.State(
        upTo(4),
        upTo(2),
        u32(),
        u32(),
        upTo(65535),
        u32(),
        upTo(65535),
        upTo(65535),
        upTo(65535),
        random.nextBoolean() ? Account.NONE : account(upTo(255)));
  }

  private Notice.Span span() {
    return new Notice.Span(u32(), upTo(65535), u32(), u32(), u32(), u32());
  }

  private List<Raw> points(int least, int most) {
    return several(least, most, () -> new Raw(measure(), measure()));
  }

  private Notice.Results results() {
    if (random.nextBoolean()) {
      return new Notice.Results(span(), List.of(new Taken.Measured(points(1, 24))));
    }
    return new Notice.Results(
        span(),
        several(
            1,
            12,
            () ->
                switch (random.nextInt(3)) {
                  case 0 -> new Taken.Measured(points(1, 2));
                  case 1 -> new Taken.OverRange(points(0, 2));
                  default -> new Taken.Refused(1 + upTo(254));
                }));
  }

  private Notice.Bits bits() {
    return new Notice.Bits(span(), several(1, 868, () -> pick(List.of(Notice.Brief.values()))));
  }

  private Notice.Check check() {
    return new Notice.Check(u32(), upTo(65535), u32(), random.nextBoolean(), measure(), measure());
  }

  private Notice.Heard heard() {
    return new Notice.Heard(u32(), upTo(65535), random.nextBoolean(), u32(), u32());
  }
}
