package org.jointwalk.protocol;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
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

/**
 * Vectors of single steps and the reason for which a fixture does not take them. All fixtures have
 * 16 channels; on a board they touch in turn ground, a rail of 0.8 V, a delicate rail, a signal, a
 * delicate signal, and nothing; 12 to 15 are sense wires of ground.
 */
final class Refusals {

  static final int CHANNELS = 16;

  private static final List<Touch> BOARD =
      List.of(
          new Touch(Touch.Kind.GROUND, false, false, 0),
          new Touch(Touch.Kind.RAIL, false, false, 80_000_000),
          new Touch(Touch.Kind.RAIL, false, true, 0),
          new Touch(Touch.Kind.SIGNAL, false, false, 0),
          new Touch(Touch.Kind.SIGNAL, false, true, 0),
          new Touch(Touch.Kind.GROUND, true, false, 0));

  private static final List<Integer> BOARD_PLACES =
      List.of(1, 2, 3, 4, 5, 0, 1, 2, 3, 4, 5, 0, 6, 6, 6, 6);

  private static final List<Integer> BARE_PLACES =
      List.of(1, 1, 1, 1, 1, 0, 1, 1, 1, 1, 1, 0, 2, 2, 2, 2);

  static final Declaration ON_BOARD =
      new Declaration(
          new Request.Declare(Set.of(Request.Part.LOWER_BOARD), "lower-board", BOARD),
          BOARD_PLACES);

  static final Declaration BARE =
      new Declaration(
          new Request.Declare(
              Set.of(Request.Part.INTERPOSER),
              "interposer",
              List.of(
                  new Touch(Touch.Kind.BARE, false, false, 0),
                  new Touch(Touch.Kind.BARE, true, false, 0))),
          BARE_PLACES);

  private final List<Map<String, Object>> vectors = new ArrayList<>();

  private Refusals() {}

  /** A fixture whose ranges reach just beyond every ceiling, but that has no range for charge. */
  static Capabilities able(Switching switching) {
    Map<Kind, Range> ranges = new EnumMap<>(Kind.class);
    for (Kind kind : Kind.values()) {
      if (kind != Kind.CHARGE) {
        double amps = kind == Kind.ISOLATION ? 0.01 : 0.2;
        ranges.put(
            kind,
            new Range(
                new Amps(amps), new Volts(6), 0, new Volts(0), new Volts(0), new Amps(0), 0.02));
      }
    }
    return new Capabilities(
        "reference",
        "1",
        "1",
        switching,
        Kelvin.TAIL,
        4,
        2,
        ranges,
        new Path(new Ohms(0), new Ohms(0), new Ohms(0), new Amps(0), 0, 0),
        new ProbeQuality(new Ohms(0), new Ohms(0)),
        new Ratings(new Volts(6), 0, 0));
  }

  static Map<String, Object> fixtures() {
    Map<String, Object> fixtures = new LinkedHashMap<>();
    for (Switching switching :
        List.of(Switching.MULTIPLEXER, Switching.REST_TO_GUARD, Switching.MATRIX)) {
      Out items = new Out();
      CapabilityItems.of(able(switching), CHANNELS).forEach(item -> item.write(items));
      fixtures.put(word(switching), items.done().toString());
    }
    return fixtures;
  }

  static String word(Switching switching) {
    return switch (switching) {
      case MULTIPLEXER -> "multiplexer";
      case REST_TO_GUARD -> "rest to guard";
      case MATRIX -> "matrix";
      case HAND -> "hand";
    };
  }

  /** A step in the making: settings and terminals are put in as they differ from a plain one. */
  private static final class Draft {

    private Switching switching = Switching.MULTIPLEXER;
    private Declaration declaration = ON_BOARD;
    private Kind kind = Kind.LOW_LEVEL;
    private int voltage = 2_000_000;
    private List<Integer> currents = List.of(1);
    private int samples = 1;
    private long dwell;
    private final Set<Integer> proved = new TreeSet<>();
    private final List<Terminal> terminals = new ArrayList<>();
    private final Map<Integer, Set<Integer>> sets = new LinkedHashMap<>();
    private boolean filled = true;

    private static Draft of(Kind kind, int voltage, Integer... currents) {
      Draft draft = new Draft();
      draft.kind = kind;
      draft.voltage = voltage;
      draft.currents = List.of(currents);
      return draft;
    }

    private Draft bare(Integer... provedBare) {
      declaration = BARE;
      proved.addAll(List.of(provedBare));
      return this;
    }

    private Draft on(Switching other) {
      switching = other;
      return this;
    }

    private Draft taking(int points, long micros) {
      samples = points;
      dwell = micros;
      return this;
    }

    private Draft unfilled() {
      filled = false;
      return this;
    }

    private Draft set(int slot, Integer... channels) {
      sets.put(slot, new TreeSet<>(List.of(channels)));
      return this;
    }

    private Draft between(int high, int low) {
      return terminals(new Terminal.Channel(high), new Terminal.Channel(low));
    }

    private Draft terminals(Terminal... all) {
      terminals.addAll(List.of(all));
      return this;
    }
  }

  private void add(String name, String clauses, int reason, Draft draft) {
    while (draft.terminals.size() < 4) {
      draft.terminals.add(new Terminal.Nothing());
    }
    Streamed.Setting setting =
        new Streamed.Setting(
            1,
            0,
            draft.kind,
            false,
            draft.samples,
            draft.samples,
            draft.voltage,
            draft.currents,
            draft.dwell,
            0,
            0,
            0,
            List.of());
    List<Map<String, Object>> stream = new ArrayList<>();
    if (draft.filled) {
      stream.add(line(setting));
    }
    draft.sets.forEach(
        (slot, channels) -> {
          int bits = channels.stream().mapToInt(channel -> 1 << channel).sum();
          Bytes twoBytes = new Out().u16(bits).done();
          stream.add(line(new Streamed.SetBits(1, slot, false, 0, twoBytes)));
        });
    Streamed.Steps steps =
        new Streamed.Steps(
            1,
            0,
            List.of(
                new WireStep(
                    0,
                    false,
                    draft.terminals.get(0),
                    draft.terminals.get(1),
                    draft.terminals.get(2),
                    draft.terminals.get(3))));
    stream.add(line(steps));
    Map<String, Object> vector = new LinkedHashMap<>();
    vector.put("name", name);
    vector.put("clauses", List.of(clauses.split(" ", -1)));
    vector.put("fixture", word(draft.switching));
    vector.put("declared", draft.declaration.equals(BARE) ? "bare" : "board");
    vector.put("proved", draft.proved);
    vector.put("stream", stream);
    vector.put("reason", reason);
    vectors.add(vector);
  }

  private static Map<String, Object> line(Streamed message) {
    Map<String, Object> line = new LinkedHashMap<>();
    line.put("type", message.type());
    line.put("payload", message.payload().toString());
    return line;
  }

  static List<Map<String, Object>> all() {
    Refusals refusals = new Refusals();
    refusals.ceilings();
    refusals.proofs();
    refusals.wiring();
    refusals.times();
    return refusals.vectors;
  }

  /** A step just within and the same just beyond, on a pair of channels. */
  private void edge(
      String name, Kind kind, int high, int low, int voltage, int current, boolean bare) {
    String clauses = kind == Kind.JUNCTION ? "M55 M56" : "M55";
    Integer[] most = current == 0 ? new Integer[0] : new Integer[] {current};
    Integer[] more = current == 0 ? new Integer[0] : new Integer[] {-current - 1};
    Draft within = Draft.of(kind, voltage, most).between(high, low);
    Draft beyond = Draft.of(kind, voltage + 1, most).between(high, low);
    add(name, clauses, 0, bare ? within.bare() : within);
    add(name + "-volts-beyond", clauses, 7, bare ? beyond.bare() : beyond);
    if (current != 0) {
      Draft strong = Draft.of(kind, voltage, more).between(high, low);
      add(name + "-amps-beyond", clauses, 8, bare ? strong.bare() : strong);
    }
  }

  private void ceilings() {
    edge(
        "low-level-on-power-delicate-or-not",
        Kind.LOW_LEVEL,
        0,
        2,
        2_000_000,
        1_000_000_000,
        false);
    edge("low-level-on-a-signal", Kind.LOW_LEVEL, 3, 0, 2_000_000, 100_000_000, false);
    edge("low-level-on-a-delicate", Kind.LOW_LEVEL, 0, 4, 2_000_000, 100_000_000, false);
    edge("low-level-on-bare-metal", Kind.LOW_LEVEL, 0, 4, 2_000_000, 1_000_000_000, true);
    edge("normal-level-on-power", Kind.NORMAL_LEVEL, 0, 1, 20_000_000, 1_000_000_000, false);
    edge("normal-level-on-a-signal", Kind.NORMAL_LEVEL, 1, 3, 5_000_000, 100_000_000, false);
    edge("normal-level-on-bare-metal", Kind.NORMAL_LEVEL, 0, 3, 20_000_000, 1_000_000_000, true);
    edge("isolation-on-power", Kind.ISOLATION, 0, 2, 20_000_000, 0, false);
    edge("isolation-on-a-signal", Kind.ISOLATION, 3, 0, 5_000_000, 0, false);
    edge("isolation-on-a-delicate", Kind.ISOLATION, 2, 4, 5_000_000, 0, false);
    edge("junction-on-a-signal", Kind.JUNCTION, 0, 3, 100_000_000, 10_000_000, false);
    edge("junction-on-a-delicate", Kind.JUNCTION, 4, 0, 100_000_000, 2_000_000, false);
    edge("junction-on-a-delicate-rail", Kind.JUNCTION, 0, 2, 100_000_000, 2_000_000, false);
    edge("junction-on-a-rail-of-800-millivolt", Kind.JUNCTION, 1, 0, 80_000_000, 10_000_000, false);
    add(
        "residual-takes-any-voltage",
        "M55",
        0,
        Draft.of(Kind.RESIDUAL, Integer.MAX_VALUE).between(4, 0));
    add("all-open-within-its-range", "M55", 0, Draft.of(Kind.ALL_OPEN, 600_000_000));
    add("all-open-beyond-its-range", "M55", 7, Draft.of(Kind.ALL_OPEN, 600_000_001));
    add(
        "strictest-of-the-sense-wires-counts-too",
        "M55",
        7,
        Draft.of(Kind.NORMAL_LEVEL, 20_000_000, 1)
            .terminals(
                new Terminal.Channel(0),
                new Terminal.Channel(6),
                new Terminal.Channel(12),
                new Terminal.Channel(3)));
    add(
        "rest-counts-as-all-it-closes",
        "M55",
        7,
        Draft.of(Kind.ISOLATION, 5_000_001)
            .on(Switching.REST_TO_GUARD)
            .terminals(new Terminal.Channel(0), new Terminal.Rest()));
    add("charge-without-a-range", "M59", 1, Draft.of(Kind.CHARGE, 15_000_000).between(0, 1));
  }

  private void proofs() {
    add(
        "isolation-of-five-volt-when-proved",
        "M58",
        0,
        Draft.of(Kind.ISOLATION, 500_000_000).bare(0, 1).between(0, 1));
    add(
        "isolation-of-five-volt-half-proved",
        "M58",
        10,
        Draft.of(Kind.ISOLATION, 500_000_000).bare(0).between(0, 1));
    add(
        "isolation-beyond-five-volt",
        "M55",
        7,
        Draft.of(Kind.ISOLATION, 500_000_001).bare(0, 1).between(0, 1));
    add(
        "isolation-of-200-millivolt-unproved",
        "M58",
        0,
        Draft.of(Kind.ISOLATION, 20_000_000).bare().between(0, 1));
    add(
        "isolation-beyond-200-millivolt-unproved",
        "M58",
        10,
        Draft.of(Kind.ISOLATION, 20_000_001).bare().between(0, 1));
    add(
        "isolation-against-a-rest-that-is-not-proved",
        "M58",
        10,
        Draft.of(Kind.ISOLATION, 500_000_000)
            .on(Switching.REST_TO_GUARD)
            .bare(0, 1, 2, 3, 4, 6, 7, 8, 9)
            .terminals(new Terminal.Channel(0), new Terminal.Rest()));
  }

  private void wiring() {
    add("setting-never-filled", "M59", 12, new Draft().unfilled().between(0, 1));
    add(
        "set-never-filled",
        "M59",
        13,
        new Draft().on(Switching.MATRIX).terminals(new Terminal.Channel(0), new Terminal.Group(0)));
    add("one-side-missing", "M59", 5, new Draft().terminals(new Terminal.Channel(0)));
    add(
        "set-without-channels",
        "M59",
        5,
        new Draft()
            .on(Switching.MATRIX)
            .set(1, 3)
            .terminals(new Terminal.Group(0), new Terminal.Group(1))
            .set(0));
    add("all-open-with-a-channel", "M59", 5, Draft.of(Kind.ALL_OPEN, 1).between(0, 1));
    add("channel-beyond-the-last", "M59", 2, new Draft().between(0, 16));
    add("channel-never-declared", "M43 M59", 3, new Draft().between(5, 0));
    add("channel-on-both-sides", "M59", 4, new Draft().between(0, 0));
    add(
        "channel-on-both-sense-sides",
        "M59",
        4,
        new Draft()
            .terminals(
                new Terminal.Channel(0),
                new Terminal.Channel(1),
                new Terminal.Channel(12),
                new Terminal.Channel(12)));
    add("sense-wire-on-force-low", "M59", 0, new Draft().between(0, 12));
    add(
        "tap-at-a-third-pad",
        "M59",
        0,
        new Draft()
            .terminals(
                new Terminal.Channel(0),
                new Terminal.Channel(6),
                new Terminal.Channel(12),
                new Terminal.Channel(14)));
    Draft joined =
        new Draft().set(0, 0, 1).terminals(new Terminal.Group(0), new Terminal.Channel(2));
    add("set-on-a-multiplexer", "M59", 6, joined);
    add(
        "set-on-a-matrix",
        "M59",
        0,
        new Draft()
            .on(Switching.MATRIX)
            .set(0, 0, 1)
            .terminals(new Terminal.Group(0), new Terminal.Channel(2)));
    add(
        "rest-on-a-multiplexer",
        "M59",
        6,
        new Draft().terminals(new Terminal.Channel(0), new Terminal.Rest()));
    add(
        "rest-where-it-is-meant",
        "M59",
        0,
        Draft.of(Kind.ISOLATION, 5_000_000)
            .on(Switching.REST_TO_GUARD)
            .terminals(new Terminal.Channel(0), new Terminal.Rest()));
    add(
        "rest-on-a-matrix",
        "M59",
        0,
        Draft.of(Kind.ISOLATION, 5_000_000)
            .on(Switching.MATRIX)
            .terminals(new Terminal.Channel(3), new Terminal.Rest()));
    add(
        "several-reasons-the-first-is-given",
        "M59",
        3,
        Draft.of(Kind.LOW_LEVEL, 600_000_001, 2_000_000_001).taking(24, 0).between(5, 5));
  }

  private void times() {
    add("half-a-second", "M57", 0, new Draft().taking(24, 20_000).between(0, 1));
    add("beyond-half-a-second", "M57", 9, new Draft().taking(24, 20_001).between(0, 1));
    Draft junction = Draft.of(Kind.JUNCTION, 1, 1, 2, 3);
    add("junction-dwell", "M57", 0, junction.taking(1, 20_000).between(0, 1));
    add(
        "junction-dwell-beyond",
        "M57",
        9,
        Draft.of(Kind.JUNCTION, 1, 1, 2, 3).taking(1, 20_001).between(0, 1));
    add(
        "discharge-for-ten-seconds",
        "M57",
        0,
        Draft.of(Kind.DISCHARGE, 0).taking(24, 10_000_000).between(0, 1));
    add(
        "discharge-for-longer",
        "M57",
        9,
        Draft.of(Kind.DISCHARGE, 0).taking(1, 10_000_001).between(0, 1));
  }

  /** The channels of a JSON list. */
  static Set<Integer> channels(JsonNode list) {
    Set<Integer> channels = new HashSet<>();
    list.forEach(channel -> channels.add(channel.asInt()));
    return channels;
  }
}
