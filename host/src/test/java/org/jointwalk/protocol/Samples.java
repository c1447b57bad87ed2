package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import org.jointwalk.fixture.Kind;

/** Messages worth keeping as vectors: each type, plain and at its limits. */
final class Samples {

  static final int SESSION = 0x9E37;

  private static final long MOST = Ranges.U32;
  private static final int TOP = Integer.MAX_VALUE;

  private Samples() {}

  /**
   * A message with what it is for.
   *
   * @param name of the vector
   * @param clauses that it checks
   * @param number in its header
   */
  record Sample(String name, List<String> clauses, int number, Message message) {

    Frame frame() {
      return new Frame(SESSION, number, message);
    }
  }

  private static Sample sample(String name, String clauses, int number, Message message) {
    return new Sample(name, List.of(clauses.split(" ", -1)), number, message);
  }

  static List<Sample> all() {
    List<Sample> all = new ArrayList<>();
    all.addAll(requests());
    all.addAll(stream());
    all.addAll(answers());
    all.addAll(notices());
    return all;
  }

  private static List<Sample> requests() {
    List<Touch> touches =
        List.of(
            new Touch(Touch.Kind.GROUND, false, false, 0),
            new Touch(Touch.Kind.RAIL, false, false, 80_000_000),
            new Touch(Touch.Kind.SIGNAL, false, false, 0),
            new Touch(Touch.Kind.SIGNAL, true, true, 0));
    return List.of(
        sample("hello", "M20 M21", 7, new Request.Hello(1, 1, false, 0x5A1C9E37L, 0)),
        sample("hello-takes-over", "M22", 0, new Request.Hello(1, 3, true, 0x00009E37L, 0)),
        sample("hello-goes-on", "M22", 65535, new Request.Hello(1, 255, false, 0xFFFF9E37L, MOST)),
        sample("capabilities-first", "M35", 8, new Request.Capabilities(0)),
        sample("capabilities-last", "M35", 9, new Request.Capabilities(255)),
        sample(
            "declare-lower-board",
            "M38",
            10,
            new Request.Declare(
                Set.of(Request.Part.LOWER_BOARD, Request.Part.INTERPOSER),
                "interposer-on-lower",
                touches)),
        sample(
            "declare-nothing-clamped",
            "M38",
            11,
            new Request.Declare(Set.of(), "empty", List.of())),
        sample(
            "declare-all-classes",
            "M38 M39",
            12,
            new Request.Declare(
                Set.of(Request.Part.INTERPOSER, Request.Part.SHORTING_PLATE),
                "name-of-thirty-two-bytes-\u00e5\u03a9-ab",
                Collections.nCopies(15, new Touch(Touch.Kind.BARE, true, false, TOP)))),
        sample("channels-two", "M38", 13, new Request.Channels(0, List.of(1, 2))),
        sample("channels-odd-count", "M38", 14, new Request.Channels(438, List.of(3, 0, 15))),
        sample(
            "channels-most",
            "M38",
            15,
            new Request.Channels(474, Collections.nCopies(Request.Channels.MOST, 1))),
        sample("run", "M61", 16, new Request.Run(1, 0, 100, 64, 0x11223344L)),
        sample("run-goes-on", "M61", 17, new Request.Run(MOST, 2_500, MOST - 2_500, MOST, MOST)),
        sample("stop", "M72", 18, new Request.Stop()),
        sample("status", "M85", 19, new Request.Status()));
  }

  private static Streamed.Setting setting(Kind kind, int voltage, Integer... currents) {
    return new Streamed.Setting(
        1, 0, kind, false, 1, 1, voltage, List.of(currents), 0, 0, 0, 0, List.of());
  }

  private static WireStep pair(int setting, int high, int low) {
    return new WireStep(
        setting,
        false,
        new Terminal.Channel(high),
        new Terminal.Channel(low),
        new Terminal.Nothing(),
        new Terminal.Nothing());
  }

  private static List<Sample> stream() {
    List<Sample> stream = new ArrayList<>();
    stream.add(sample("setting-all-open", "M44", 1, setting(Kind.ALL_OPEN, 500_000_000)));
    stream.add(sample("setting-residual", "M44", 2, setting(Kind.RESIDUAL, 0)));
    stream.add(sample("setting-residual-loaded", "M44", 3, setting(Kind.RESIDUAL_LOADED, 0)));
    stream.add(
        sample(
            "setting-discharge",
            "M44",
            4,
            new Streamed.Setting(
                1, 3, Kind.DISCHARGE, false, 1, 1, 0, List.of(), 250_000, 0, 0, 0, List.of())));
    stream.add(
        sample("setting-low-level", "M44", 5, setting(Kind.LOW_LEVEL, 2_000_000, 120_000_000)));
    stream.add(sample("setting-normal-level", "M44", 6, setting(Kind.NORMAL_LEVEL, 5_000_000, -1)));
    stream.add(sample("setting-isolation", "M44", 7, setting(Kind.ISOLATION, 5_000_000)));
    stream.add(
        sample(
            "setting-junction",
            "M44",
            8,
            setting(Kind.JUNCTION, 100_000_000, 500_000, 2_240_000, 10_000_000)));
    stream.add(
        sample(
            "setting-junction-one-current-reversed",
            "M44",
            9,
            setting(Kind.JUNCTION, 80_000_000, -100_000)));
    stream.add(sample("setting-charge", "M44", 10, setting(Kind.CHARGE, 15_000_000)));
    stream.add(
        sample(
            "setting-extends",
            "M47",
            11,
            new Streamed.Setting(
                1,
                127,
                Kind.LOW_LEVEL,
                false,
                2,
                24,
                2_000_000,
                List.of(400_000_000),
                0,
                150_000,
                20_000,
                30_000,
                List.of())));
    stream.add(
        sample(
            "setting-brief-with-an-item-to-ignore",
            "M48 M76",
            12,
            new Streamed.Setting(
                MOST,
                5,
                Kind.ISOLATION,
                true,
                1,
                3,
                TOP,
                List.of(),
                MOST,
                MOST,
                MOST,
                MOST,
                List.of(new Item(0x80, Bytes.NONE), new Item(0xFF, Bytes.ofHex("0001ff"))))));
    stream.add(
        sample(
            "set-anew",
            "M49",
            13,
            new Streamed.SetBits(1, 0, false, 0, Bytes.ofHex("0100000000000080"))));
    stream.add(
        sample(
            "set-most-channels-all-in",
            "M49 M7",
            14,
            new Streamed.SetBits(1, 1, false, 8, Lines.repeat(0xFF, 233))));
    stream.add(
        sample(
            "set-more-all-out",
            "M49 M7",
            15,
            new Streamed.SetBits(1, 254, true, 65528, Lines.repeat(0, 233))));
    stream.add(
        sample("set-change", "M49", 16, new Streamed.SetChange(1, 2, 0, List.of(0, 439, 65535))));
    stream.add(sample("set-copy", "M49", 17, new Streamed.SetChange(1, 3, 3, List.of())));
    stream.add(
        sample(
            "set-change-most",
            "M49",
            18,
            new Streamed.SetChange(1, 4, 0, Collections.nCopies(117, 1199))));
    stream.add(sample("steps-pair", "M50", 19, new Streamed.Steps(1, 0, List.of(pair(0, 0, 420)))));
    stream.add(
        sample(
            "steps-most-pairs",
            "M50",
            20,
            new Streamed.Steps(1, 38, Collections.nCopies(38, pair(127, 65535, 1)))));
    stream.add(
        sample(
            "steps-of-every-form",
            "M50 M54 M59",
            21,
            new Streamed.Steps(
                1,
                MOST - 5,
                List.of(
                    new WireStep(
                        0,
                        false,
                        new Terminal.Nothing(),
                        new Terminal.Nothing(),
                        new Terminal.Nothing(),
                        new Terminal.Nothing()),
                    new WireStep(
                        1,
                        true,
                        new Terminal.Channel(12),
                        new Terminal.Channel(433),
                        new Terminal.Channel(892),
                        new Terminal.Channel(901)),
                    new WireStep(
                        2,
                        false,
                        new Terminal.Group(0),
                        new Terminal.Group(1),
                        new Terminal.Group(2),
                        new Terminal.Group(3)),
                    new WireStep(
                        3,
                        false,
                        new Terminal.Channel(7),
                        new Terminal.Rest(),
                        new Terminal.Nothing(),
                        new Terminal.Channel(8))))));
    stream.add(sample("credit", "M66 M67", 65535, new Streamed.Credit(1, 128)));
    stream.add(sample("credit-without-end", "M67", 0, new Streamed.Credit(MOST, MOST)));
    return stream;
  }

  private static List<Sample> answers() {
    return List.of(
        sample("refused-unknown-type", "M17 M34", 20, new Answer.Refused(0x3F, 1, 0)),
        sample("refused-bad-length", "M16 M34", 20, new Answer.Refused(0x05, 2, 21)),
        sample("refused-bad-value", "M2 M34", 20, new Answer.Refused(0x04, 3, 0)),
        sample("refused-no-session", "M29", 20, new Answer.Refused(0x07, 4, 0)),
        sample("refused-number-reused", "M31", 20, new Answer.Refused(0x05, 5, 0)),
        sample("refused-number-old", "M32", 20, new Answer.Refused(0x05, 6, 0)),
        sample("refused-version", "M20", 20, new Answer.Refused(0x01, 7, 2 + 256 * 3)),
        sample("refused-busy", "M22", 20, new Answer.Refused(0x01, 8, 120)),
        sample("refused-run-under-way", "M40 M61", 20, new Answer.Refused(0x03, 9, 0)),
        sample("refused-lid-open", "M40 M61", 20, new Answer.Refused(0x05, 10, 0)),
        sample("refused-not-declared", "M40 M61", 20, new Answer.Refused(0x04, 11, 0)),
        sample("refused-other-declaration", "M61", 20, new Answer.Refused(0x05, 12, 0xDEADBEEFL)),
        sample("refused-fault", "M61 M84", 20, new Answer.Refused(0x05, 13, 3)),
        sample("refused-for-a-reason-of-later", "M18", 20, new Answer.Refused(0xFF, 65535, MOST)),
        sample(
            "welcome",
            "M20 M24",
            7,
            new Answer.Welcome(
                1,
                0x5A1C9E37L,
                0x0123_4567_89AB_CDEFL,
                1,
                0xFEDC_BA98_7654_3210L,
                0,
                4,
                0,
                512,
                440,
                256,
                16,
                8,
                24,
                600_000_000,
                10_000,
                0xCAFEF00DL,
                0)),
        sample(
            "welcome-smallest",
            "M20",
            7,
            new Answer.Welcome(1, 0x9E37L, 0, 0, 0, 2, 0, 0, 252, 1, 16, 8, 0, 1, 0, 0, 0, MOST)),
        sample(
            "welcome-largest",
            "M20",
            7,
            new Answer.Welcome(
                255,
                0xFFFF9E37L,
                Long.MAX_VALUE,
                255,
                -1,
                1,
                MOST,
                MOST,
                65535,
                65535,
                65535,
                128,
                255,
                24,
                TOP,
                MOST,
                MOST,
                MOST)),
        sample(
            "page",
            "M35 M37",
            8,
            new Answer.Page(
                0,
                4,
                List.of(
                    new Item(0x01, Bytes.ofHex("6d617273682d31")),
                    new Item(0x02, Bytes.ofHex("312e30")),
                    new Item(0x90, Bytes.NONE)))),
        sample(
            "page-last-item-full",
            "M35",
            9,
            new Answer.Page(254, 255, List.of(new Item(0xFF, Lines.repeat(0x5A, 237))))),
        sample("declared", "M41", 11, new Answer.Declared(0x8A9136AAL)),
        sample("declared-nothing", "M41", 12, new Answer.Declared(0)),
        sample(
            "state-idle",
            "M71",
            19,
            new Answer.State(0, 0, 4, 0, 0, 123_456_789, 0, 0, 0, Account.NONE)),
        sample(
            "state-measuring",
            "M71",
            19,
            new Answer.State(
                1, 0, 4, 1, 0, 1, 2, 3, 4, new Account(7, 12, 0, 0, 76, 40, 104, 0, 5))),
        sample(
            "state-fault",
            "M84",
            19,
            new Answer.State(
                4,
                1,
                MOST,
                MOST,
                65535,
                MOST,
                65535,
                65535,
                65535,
                new Account(MOST, 65535, 255, 65535, MOST, MOST, MOST, MOST, 65535))));
  }

  private static List<Raw> points(int count) {
    List<Raw> points = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      points.add(new Raw(1000 * i, -i));
    }
    return points;
  }

  private static Notice.Span span(long first) {
    return new Notice.Span(1, 3, first, 20_000, 18_500, 14);
  }

  private static List<Sample> notices() {
    return List.of(
        sample(
            "results-one",
            "M73",
            2,
            new Notice.Results(
                span(0), List.of(new Taken.Measured(List.of(new Raw(8_400, 120_000_000)))))),
        sample(
            "results-of-every-status",
            "M44 M45 M55 M73",
            3,
            new Notice.Results(
                span(7),
                List.of(
                    new Taken.Measured(points(4)),
                    new Taken.OverRange(points(1)),
                    new Taken.OverRange(List.of()),
                    new Taken.Refused(StepRefusal.VOLTAGE.code()),
                    new Taken.Refused(255)))),
        sample(
            "results-extreme-values",
            "M3 M73",
            65535,
            new Notice.Results(
                new Notice.Span(MOST, 65535, MOST, MOST, MOST, MOST),
                List.of(new Taken.Measured(List.of(new Raw(TOP, -TOP), new Raw(0, 0)))))),
        sample(
            "results-most",
            "M75",
            4,
            new Notice.Results(
                span(20), Collections.nCopies(24, new Taken.Measured(List.of(new Raw(-1, 1)))))),
        sample(
            "results-most-points",
            "M47",
            5,
            new Notice.Results(span(44), List.of(new Taken.Measured(points(24))))),
        sample("bits-one", "M76", 6, new Notice.Bits(span(0), List.of(Notice.Brief.ABOVE))),
        sample(
            "bits-every-answer",
            "M76",
            7,
            new Notice.Bits(
                span(1),
                List.of(
                    Notice.Brief.BELOW,
                    Notice.Brief.ABOVE,
                    Notice.Brief.UNDECIDED,
                    Notice.Brief.REFUSED,
                    Notice.Brief.UNDECIDED))),
        sample(
            "bits-most",
            "M76",
            8,
            new Notice.Bits(span(6), Collections.nCopies(Notice.Bits.MOST, Notice.Brief.REFUSED))),
        sample("check-good", "M77", 1, new Notice.Check(1, 0, 0, false, 500_000_000, 2)),
        sample("check-bad", "M78 M79", 9, new Notice.Check(1, 40, 128, true, 1_200, 10_000)),
        sample("heard", "M63", 0, new Notice.Heard(1, 4, false, 76, 128)),
        sample("heard-gap", "M62", 0, new Notice.Heard(1, 0, true, 0, 64)),
        sample(
            "end-done",
            "M70",
            19,
            new Notice.End(new Account(1, 40, 1, 0, 100, 100, 164, 100, 19))),
        sample(
            "end-bad-program",
            "M64 M70",
            3,
            new Notice.End(new Account(1, 2, 6, 6, 38, 4, 64, 0, 3))),
        sample(
            "end-bus-check",
            "M70 M78",
            16,
            new Notice.End(new Account(1, 40, 5, 0, 160, 128, 192, 64, 16))),
        sample("event-lid-opened", "M86 M87", 0, new Notice.Event(1, 5, 55_000_000)),
        sample("event-lid-closed", "M86", 0, new Notice.Event(2, 5, 58_000_000)),
        sample("event-button", "M86", 0, new Notice.Event(3, MOST, MOST)),
        sample("event-of-later", "M87", 0, new Notice.Event(255, 1, 0)));
  }
}
