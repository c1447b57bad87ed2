package org.jointwalk.conform;

import static org.jointwalk.conform.Check.hidden;
import static org.jointwalk.conform.Check.require;

import java.io.IOException;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jointwalk.fixture.Kind;
import org.jointwalk.protocol.Bytes;
import org.jointwalk.protocol.Extension;
import org.jointwalk.protocol.ProgramFault;
import org.jointwalk.protocol.Raw;
import org.jointwalk.protocol.StepRefusal;
import org.jointwalk.protocol.Streamed;
import org.jointwalk.protocol.Taken;
import org.jointwalk.protocol.Terminal;
import org.jointwalk.protocol.WireStep;

/** Steps and programs: section 10. Stateless. */
final class StepChecks {

  private static final int SAMPLES = 3;

  /** Slots of settings that a step can name; a number from here on names none anywhere. */
  private static final int MOST_SLOTS = 128;

  /** 20 mV and 1 mA: below every ceiling for signals. */
  private static final int LOW_VOLT = 2_000_000;

  private static final int LOW_AMP = 10_000_000;

  /** 0.3 V and 10, 20 microamperes. */
  private static final int DROP = 30_000_000;

  private static final int SMALL_AMP = 100_000;

  private static final long MOST = 0xFFFF_FFFFL;
  private static final int STEPS_A_FRAME = 30;

  private static final Set<Kind> NEVER_OVER =
      EnumSet.complementOf(EnumSet.of(Kind.LOW_LEVEL, Kind.NORMAL_LEVEL, Kind.JUNCTION));

  private StepChecks() {}

  static List<Check> all() {
    return List.of(
        new Check("M44", "each kind of step yields its points", StepChecks::points),
        new Check("M45", "an open pair is over range, by kind", StepChecks::overRange),
        hidden("M46", "no switch moves under current", "by hand: look at source and relays"),
        new Check("M47", "a step is extended by the rule", StepChecks::extended),
        new Check("M48", "a wrong setting ends the run", StepChecks::settings),
        new Check("M49", "a wrong set ends the run", StepChecks::sets),
        new Check("M50", "steps come in their order", StepChecks::order),
        new Check("M52", "more steps than there is room for end the run", StepChecks::room),
        new Check("M53", "what a loaded step needs is not changed", StepChecks::inUse),
        new Check("M54", "joined steps share no channel", StepChecks::together));
  }

  /** A result in a few words. */
  static String words(Taken taken) {
    if (taken instanceof Taken.Refused refused) {
      String reason =
          StepRefusal.of(refused.reason()).map(Enum::name).orElse("reason " + refused.reason());
      return "refused with " + reason;
    }
    return taken instanceof Taken.OverRange ? "over range" : "measured";
  }

  static List<Raw> points(Taken taken) {
    return taken instanceof Taken.Measured measured
        ? measured.points()
        : taken instanceof Taken.OverRange over ? over.points() : List.of();
  }

  /** A setting of a kind that no ceiling forbids on signals. */
  static Streamed.Setting gentle(Talk talk, Kind kind, int samples, int most) {
    return switch (kind) {
      case LOW_LEVEL, NORMAL_LEVEL ->
          Engine.setting(talk, kind, samples, most, LOW_VOLT, 0, LOW_AMP);
      case JUNCTION -> Engine.setting(talk, kind, 1, 1, DROP, 0, SMALL_AMP, 2 * SMALL_AMP);
      case ISOLATION, CHARGE, ALL_OPEN -> Engine.setting(talk, kind, samples, most, LOW_VOLT, 0);
      case RESIDUAL, RESIDUAL_LOADED, DISCHARGE -> Engine.setting(talk, kind, samples, most, 0, 0);
    };
  }

  static WireStep step(Talk talk, Kind kind) {
    Terminal none = new Terminal.Nothing();
    return kind == Kind.ALL_OPEN
        ? new WireStep(0, false, none, none, none, none)
        : Engine.step(talk, 0);
  }

  private static Taken take(Talk talk, Kind kind, int samples) throws Breach, IOException {
    return Engine.take(talk, gentle(talk, kind, samples, samples), step(talk, kind));
  }

  private static boolean isTooStrong(Taken taken) {
    return taken.equals(new Taken.Refused(StepRefusal.CURRENT.code()))
        || taken.equals(new Taken.Refused(StepRefusal.VOLTAGE.code()));
  }

  private static String points(Talk talk) throws Breach, IOException {
    talk.open();
    Engine.signals(talk);
    List<String> kinds = new ArrayList<>();
    for (Kind kind : Kind.values()) {
      if (talk.able().range(kind).isEmpty()) {
        continue;
      }
      Taken taken = take(talk, kind, SAMPLES);
      if (isTooStrong(taken)) {
        continue;
      }
      kinds.add(kind.name());
      int due = SAMPLES;
      int seen = points(taken).size();
      require(!(taken instanceof Taken.Refused), "a step of " + kind + " was " + words(taken));
      require(
          seen == due || (taken instanceof Taken.OverRange && seen < due),
          "a step of " + kind + " has " + seen + " points instead of " + due);
      boolean currents =
          kind == Kind.RESIDUAL || kind == Kind.RESIDUAL_LOADED || kind == Kind.DISCHARGE;
      require(
          !currents || points(taken).stream().allMatch(point -> point.amp() == 0),
          "a step of " + kind + " tells a current");
    }
    turned(talk);
    return kinds.size() + " kinds";
  }

  /** A junction step goes back to the first of its currents, not to the last or to none. */
  private static void turned(Talk talk) throws Breach, IOException {
    if (talk.able().range(Kind.JUNCTION).isEmpty()) {
      return;
    }
    Streamed.Setting setting =
        Engine.setting(talk, Kind.JUNCTION, 1, 1, DROP, 0, SMALL_AMP, -SMALL_AMP);
    Taken taken = Engine.take(talk, setting, Engine.step(talk, 0));
    List<Integer> volts = points(taken).stream().map(Raw::volt).toList();
    boolean whole = volts.size() == 3 && volts.stream().allMatch(v -> Math.abs(v) > DROP / 4);
    require(
        !whole || (volts.get(0) > 0 && volts.get(1) < 0 && volts.get(2) > 0),
        "a junction step with currents up and down reads " + volts + " instead of + - +");
  }

  private static String overRange(Talk talk) throws Breach, IOException {
    talk.open();
    Engine.signals(talk);
    for (Kind kind : Kind.values()) {
      if (talk.able().range(kind).isEmpty()) {
        continue;
      }
      Taken taken = take(talk, kind, 1);
      if (!isTooStrong(taken)) {
        require(
            taken instanceof Taken.OverRange != NEVER_OVER.contains(kind),
            "between two open channels, a step of " + kind + " was " + words(taken));
      }
    }
    return "";
  }

  private static String extended(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    int room = Math.min(12, talk.welcome().points());
    if (room < 4) {
      throw new Untestable("a step has at most " + room + " points");
    }
    Kind quiet = Engine.quiet(talk);
    List<Streamed.Setting> settings = new ArrayList<>();
    List<WireStep> steps = new ArrayList<>();
    List<Kind> kinds = List.of(quiet, Kind.ISOLATION, Kind.ALL_OPEN, Kind.LOW_LEVEL);
    long[][] rules = {
      {0, 0, 0},
      {0, MOST, MOST},
      {100_000, 350_000, MOST},
      {1, MOST, 40},
      {0, 0, MOST},
      {0, MOST, 0}
    };
    for (Kind kind : kinds) {
      for (long[] rule : rules) {
        if (talk.able().range(kind).isPresent()) {
          Streamed.Setting plain = gentle(talk, kind, 2, room);
          settings.add(ruled(plain, rule));
          steps.add(step(talk, kind));
        }
      }
    }
    List<Taken> taken = Engine.take(talk, settings, steps);
    for (int i = 0; i < taken.size(); i++) {
      if (!isTooStrong(taken.get(i))) {
        follows(settings.get(i), taken.get(i));
      }
    }
    return taken.size() + " steps";
  }

  private static Streamed.Setting ruled(Streamed.Setting plain, long[] rule) {
    return new Streamed.Setting(
        plain.run(),
        plain.slot(),
        plain.kind(),
        false,
        plain.samples(),
        plain.most(),
        plain.voltage(),
        plain.currents(),
        plain.dwell(),
        rule[0],
        rule[1],
        rule[2],
        plain.items());
  }

  private static void follows(Streamed.Setting setting, Taken taken) throws Breach {
    boolean over = taken instanceof Taken.OverRange;
    List<Raw> points = points(taken);
    List<Long> answers = new ArrayList<>();
    for (int n = 1; n <= points.size(); n++) {
      boolean last = n == points.size();
      answers.add(Extension.answer(setting.kind(), List.of(points.get(n - 1)), over && last));
      // A step may end at its first point over range, which no further one would change.
      boolean enough = n >= setting.samples() || (over && last);
      boolean ends = enough && Extension.ends(setting, answers, over && last);
      require(
          ends == last,
          "a step of "
              + setting.kind()
              + " that ends after its answers "
              + answers
              + (last ? " went no further" : " went on")
              + " (limit "
              + setting.limit()
              + ", below "
              + setting.below()
              + ", above "
              + setting.above()
              + ")");
    }
    require(!points.isEmpty(), "a step of " + setting.kind() + " was " + words(taken));
  }

  private static String settings(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    int lacking = talk.welcome().settings();
    record Slip(String what, ProgramFault fault, int at, List<Integer> values) {}
    List<Slip> slips =
        List.of(
            new Slip("an unknown kind", ProgramFault.UNREADABLE, 5, List.of(9)),
            new Slip("a flag that is not defined", ProgramFault.UNREADABLE, 6, List.of(2)),
            new Slip("no samples", ProgramFault.UNREADABLE, 7, List.of(0)),
            new Slip("most below samples", ProgramFault.UNREADABLE, 7, List.of(3, 2)),
            new Slip("more points than a step may have", ProgramFault.UNREADABLE, 8, List.of(25)),
            new Slip("four currents", ProgramFault.UNREADABLE, 13, List.of(4)),
            new Slip("a current too many", ProgramFault.UNREADABLE, 13, List.of(1, 1)),
            new Slip(
                "a slot that is not there",
                lacking < MOST_SLOTS ? ProgramFault.SLOT : ProgramFault.UNREADABLE,
                4,
                List.of(lacking)));
    for (Slip slip : slips) {
      talk.begin(0, 1, 0);
      RawFrame setting = talk.streamed(Engine.quietSetting(talk));
      Engine.fault(
          talk,
          setting.with(slip.at(), slip.values().stream().mapToInt(i -> i).toArray()),
          slip.fault(),
          slip.what());
    }
    if (talk.able().range(Kind.LOW_LEVEL).isPresent()) {
      talk.begin(0, 1, 0);
      RawFrame low = talk.streamed(gentle(talk, Kind.LOW_LEVEL, 1, 1));
      Engine.fault(talk, low.with32(14, 0), ProgramFault.UNREADABLE, "a current of 0");
    }
    talk.begin(0, 1, 0);
    RawFrame negative = talk.streamed(Engine.quietSetting(talk));
    Engine.fault(talk, negative.with32(9, -1), ProgramFault.UNREADABLE, "a negative voltage");
    if (talk.able().range(Kind.JUNCTION).isPresent() && talk.welcome().points() > 2) {
      talk.begin(0, 1, 0);
      RawFrame twice = talk.streamed(gentle(talk, Kind.JUNCTION, 1, 1));
      Engine.fault(
          talk, twice.with(8, 2), ProgramFault.UNREADABLE, "a junction step that may go on");
    }
    talk.begin(0, 1, 0);
    talk.send(talk.streamed(Engine.quietSetting(talk)).plus(0x90, 2, 1, 1));
    Engine.heard(talk);
    RawFrame item = talk.streamed(Engine.quietSetting(talk)).plus(0x10, 1, 7);
    Engine.fault(talk, item, ProgramFault.UNKNOWN, "an item that must be understood");
    return "";
  }

  private static String sets(Talk talk) throws Breach, IOException {
    talk.open();
    Engine.signals(talk);
    int sets = talk.welcome().sets();
    if (sets < 255) {
      talk.begin(0, 1, 0);
      RawFrame lacking = set(talk, sets, 0);
      Engine.fault(talk, lacking, ProgramFault.SLOT, "a slot that is not there");
    }
    if (sets > 0) {
      talk.begin(0, 1, 0);
      Engine.fault(
          talk,
          talk.streamed(new Streamed.SetChange(talk.run(), 0, 1, List.of())),
          ProgramFault.SLOT,
          "a base that was never filled");
      talk.begin(0, 1, 0);
      Streamed.SetBits more =
          new Streamed.SetBits(talk.run(), 0, true, 0, Bytes.of(new byte[] {1}));
      Engine.fault(
          talk, talk.streamed(more), ProgramFault.SLOT, "more for a slot that was never filled");
      int channels = talk.able().channels();
      if (channels < 65_520) {
        talk.begin(0, 1, 0);
        RawFrame beyond = set(talk, 0, channels + 8 & ~7);
        Engine.fault(talk, beyond, ProgramFault.UNREADABLE, "a channel that is not there");
      }
    }
    return sets + " set slots";
  }

  private static RawFrame set(Talk talk, int slot, int first) {
    return talk.streamed(
        new Streamed.SetBits(talk.run(), slot, false, first, Bytes.of(new byte[] {1})));
  }

  private static String order(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Engine.begin(talk, 10, 4, 10);
    RawFrame ahead = talk.streamed(Engine.steps(talk, 11, 1));
    Engine.fault(talk, ahead, ProgramFault.INDEX, "steps that leave one out");
    Engine.begin(talk, 10, 4, 10);
    talk.stream(Engine.steps(talk, 10, 2));
    RawFrame twice = talk.streamed(Engine.steps(talk, 10, 2));
    Engine.fault(talk, twice, ProgramFault.INDEX, "steps that were loaded before");
    Engine.begin(talk, 10, 2, 10);
    RawFrame many = talk.streamed(Engine.steps(talk, 10, 3));
    Engine.fault(talk, many, ProgramFault.INDEX, "steps beyond the last");
    Engine.begin(talk, 0, 1, 0);
    RawFrame rest = talk.streamed(Engine.steps(talk, 0, 1));
    Engine.fault(
        talk, rest.sized(13).with(10, 0x07), ProgramFault.UNREADABLE, "rest on force-high");
    return "";
  }

  private static String room(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    int room = talk.welcome().steps();
    Engine.begin(talk, 0, room + 1, 0);
    int loaded = 0;
    while (loaded < room) {
      int some = Math.min(STEPS_A_FRAME, room - loaded);
      talk.stream(Engine.steps(talk, loaded, some));
      Engine.heard(talk);
      loaded += some;
    }
    require(
        talk.status().account().loaded() == room,
        "WELCOME tells of room for " + room + " steps, and not all of them are loaded");
    RawFrame more = talk.streamed(Engine.steps(talk, room, 1));
    Engine.fault(talk, more, ProgramFault.ROOM, "step " + room + " of room for " + room);
    return room + " steps";
  }

  private static String inUse(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Engine.begin(talk, 0, 2, 0);
    talk.stream(Engine.in(Engine.quietSetting(talk), 1));
    talk.stream(Engine.steps(talk, 0, 1));
    talk.stream(Engine.in(Engine.quietSetting(talk), 1));
    Engine.heard(talk);
    RawFrame again = talk.streamed(Engine.quietSetting(talk));
    Engine.fault(talk, again, ProgramFault.IN_USE, "a setting that a loaded step needs");
    if (talk.welcome().sets() > 0) {
      Engine.begin(talk, 0, 2, 0);
      int high = talk.able().high();
      talk.send(set(talk, 0, high & ~7));
      WireStep plain = Engine.step(talk, 0);
      Terminal none = new Terminal.Nothing();
      WireStep grouped =
          new WireStep(0, false, new Terminal.Group(0), plain.forceLow(), none, none);
      talk.stream(new Streamed.Steps(talk.run(), 0, List.of(grouped)));
      Engine.heard(talk);
      RawFrame changed = set(talk, 0, high & ~7);
      Engine.fault(talk, changed, ProgramFault.IN_USE, "a set that a loaded step needs");
      Engine.begin(talk, 0, 2, 0);
      talk.send(set(talk, 0, high & ~7));
      talk.send(set(talk, 1, high & ~7));
      talk.stream(new Streamed.Steps(talk.run(), 0, List.of(grouped)));
      Engine.heard(talk);
      RawFrame altered = talk.streamed(new Streamed.SetChange(talk.run(), 0, 1, List.of(high)));
      Engine.fault(
          talk, altered, ProgramFault.IN_USE, "a change of a set that a loaded step needs");
    }
    return "";
  }

  private static String together(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Engine.begin(talk, 0, 2, 2);
    WireStep plain = Engine.step(talk, 0);
    WireStep joined =
        new WireStep(
            0, true, plain.forceHigh(), plain.forceLow(), plain.senseHigh(), plain.senseLow());
    talk.stream(new Streamed.Steps(talk.run(), 0, List.of(joined, plain)));
    List<Taken> taken = Engine.toEnd(talk).taken();
    Taken refused = new Taken.Refused(StepRefusal.SWITCHING.code());
    require(
        taken.equals(List.of(refused, refused)),
        "two joined steps on the same channels were "
            + taken.stream().map(StepChecks::words).toList());
    return "";
  }
}
