package org.jointwalk.conform;

import static org.jointwalk.conform.Broken.BITS;
import static org.jointwalk.conform.Broken.CHECK;
import static org.jointwalk.conform.Broken.END;
import static org.jointwalk.conform.Broken.EVENT;
import static org.jointwalk.conform.Broken.HEARD;
import static org.jointwalk.conform.Broken.PAGE;
import static org.jointwalk.conform.Broken.RESULTS;
import static org.jointwalk.conform.Variant.MILLI;
import static org.jointwalk.conform.Variant.asked;
import static org.jointwalk.conform.Variant.is;
import static org.jointwalk.conform.Variant.passesOver;
import static org.jointwalk.conform.Variant.refuses;
import static org.jointwalk.conform.Variant.refusesStep;
import static org.jointwalk.conform.Variant.said;
import static org.jointwalk.conform.Variant.takes;
import static org.jointwalk.conform.Variant.tells;

import java.util.ArrayList;
import java.util.List;

/** Fixtures that break a clause on steps, ceilings, runs, results or safety. */
final class RunVariants {

  private RunVariants() {}

  static List<Variant> all() {
    List<Variant> all = new ArrayList<>();
    all.addAll(steps());
    all.addAll(ceilings());
    all.addAll(runs());
    all.addAll(results());
    all.addAll(safety());
    return all;
  }

  private static List<Variant> steps() {
    return List.of(
        tells(
            "M44",
            "leaves the last of three residual points out",
            (b, f) ->
                is(f, RESULTS)
                    && b.setting.payload().at(5) == 1
                    && b.setting.payload().at(7) == 3
                    && f.payload().at(23) == 3,
            f -> f.with(23, 2).sized(40)),
        tells(
            "M45",
            "measures an open pair at low level",
            (b, f) ->
                is(f, RESULTS) && b.setting.payload().at(5) == 4 && f.payload().at(23) == 0x21,
            f -> f.with(23, 1)),
        tells(
            "M47",
            "ends a step one point before it has to",
            (b, f) -> is(f, RESULTS) && b.setting.payload().at(8) == 12 && f.payload().at(23) == 12,
            f -> f.with(23, 11).sized(23 + 1 + 88)),
        takes(
            "M48",
            "takes a kind that it does not know for another",
            f -> is(f, 0x41) && f.payload().at(5) == 9,
            f -> f.with(5, 1)),
        passesOver("M49", "passes over sets that it has no room for", (b, f) -> is(f, 0x42)),
        takes(
            "M50",
            "puts steps where the last ones ended",
            f -> is(f, 0x43) && f.payload().size() > 9 && f.u32(4) == 11,
            f -> f.with32(4, 10)),
        passesOver(
            "M52",
            "passes over steps that it has no room for",
            (b, f) -> is(f, 0x43) && f.payload().size() > 9 && f.u32(4) == 256),
        passesOver(
            "M53",
            "passes over a setting that is in use",
            (b, f) ->
                is(f, 0x41) && b.steps.payload().size() > 9 && f.payload().at(4) == 0 && isNew(b)),
        takes(
            "M54",
            "takes joined steps one by one",
            f -> is(f, 0x43) && f.payload().size() > 9 && f.payload().at(9) >= 0x80,
            f -> f.with(9, f.payload().at(9) & 0x7F)));
  }

  /** Steps of this run were loaded before. */
  private static boolean isNew(Broken broken) {
    return broken.steps.type() == 0x43;
  }

  /** Measures what it should refuse, for a voltage or a current that no other check asks for. */
  private static Variant dares(String clause, String what, int offset, long value) {
    return tells(
        clause, what, (b, f) -> is(f, RESULTS) && b.setting.u32(offset) == value, Broken::measured);
  }

  private static List<Variant> ceilings() {
    int volt = 9;
    int amp = 14;
    int dwell = 26;
    return List.of(
        dares("M55", "drives 51 mV at a signal", volt, 5_100_000),
        dares("M56", "drives 610 mV at a net of 600 mV", volt, 61_000_000),
        dares("M57", "has the source on for a long dwell", dwell, 20_001),
        tells(
            "M58", "drives 300 mV without a proof", (b, f) -> refusesStep(f, 10), Broken::measured),
        tells(
            "M59",
            "closes one channel on both sides",
            (b, f) -> refusesStep(f, 4) && b.run.u32(8) == 1,
            Broken::measured),
        dares("M60", "drives 150 mA", amp, 1_500_000_000L),
        dares("M93", "drives 1.002 V at what is called bare", volt, 100_200_000));
  }

  private static List<Variant> runs() {
    return List.of(
        tells(
            "M61",
            "refuses a declaration without saying which it holds",
            (b, f) -> refuses(f, 5, 12),
            f -> f.with32(3, 0)),
        tells(
            "M62",
            "does not say that there was a gap",
            (b, f) -> is(f, HEARD) && f.payload().at(6) == 1,
            f -> f.with(6, 0)),
        said("M63", "takes 0.15 s to say what it heard", RunVariants::hearsLate),
        passesOver(
            "M64",
            "passes over steps without steps",
            (b, f) -> is(f, 0x43) && f.payload().size() == 9 && f.payload().at(8) == 0),
        takes(
            "M67",
            "takes steps without credit",
            f -> is(f, 5) && f.payload().size() == 20 && f.u32(8) == 10 && f.u32(12) == 3,
            f -> f.with32(12, 10)),
        said("M68", "loses a result while nobody reads", RunVariants::losesResults),
        new Variant(
            "M69",
            "ends a run that waits for steps",
            b -> {
              long[] at = {Long.MAX_VALUE};
              b.asked =
                  (broken, f) -> {
                    boolean two = is(f, 0x43) && f.payload().size() > 9 && f.payload().at(8) == 2;
                    at[0] = two && broken.run.u32(8) == 4 ? broken.nanos + 250 * MILLI : at[0];
                    at[0] = is(f, 5) ? Long.MAX_VALUE : at[0];
                    broken.down(f);
                  };
              b.ticks =
                  () -> {
                    if (b.nanos > at[0]) {
                      at[0] = Long.MAX_VALUE;
                      b.stops();
                    }
                  };
            }),
        said(
            "M70",
            "has a word after the last",
            (b, f) -> {
              b.up(f);
              if (is(f, END)) {
                b.up(f.typed(HEARD).as(f.session(), 0).sized(4).sized(15));
              }
            }),
        asked(
            "M72",
            "obeys STOP of its own session only",
            (b, f) -> {
              if (!is(f, 6) || f.session() == b.session) {
                b.down(f);
              }
            }));
  }

  private static void hearsLate(Broken broken, RawFrame frame) {
    if (is(frame, END)) {
      broken.forgetLate();
    }
    if (is(frame, HEARD) && frame.payload().at(6) == 0) {
      broken.upLate(frame, 150);
    } else {
      broken.up(frame);
    }
  }

  private static void losesResults(Broken broken, RawFrame frame) {
    boolean unread = broken.nanos - broken.readAt > 150 * MILLI;
    if (is(frame, RESULTS) && unread && broken.lost == 0) {
      broken.lost = 1;
    } else {
      broken.up(broken.renumbered(frame));
    }
  }

  private static List<Variant> results() {
    return List.of(
        said(
            "M73",
            "sends bus checks twice",
            (b, f) -> {
              b.up(f);
              if (is(f, CHECK)) {
                b.up(f);
              }
            }),
        said(
            "M75",
            "waits for more results while there are no steps",
            (b, f) -> {
              if (is(f, RESULTS) && b.run.u32(8) == 8) {
                b.upLate(f, 150);
              } else {
                b.upInTurn(f);
              }
            }),
        tells(
            "M76",
            "calls what is undecided below the limit",
            (b, f) -> is(f, BITS) && f.payload().at(24) == 2,
            f -> f.with(24, 0)),
        said(
            "M77",
            "checks its buses after 128 configurations",
            (b, f) -> {
              if (is(f, CHECK) && f.u32(6) == 64) {
                b.lost = 1;
              } else {
                b.up(b.renumbered(f));
              }
            }),
        tells(
            "M78",
            "calls 20 microsiemens good",
            (b, f) -> is(f, CHECK),
            f -> f.with32(11, 10_000_000).with32(15, 20_000)));
  }

  private static List<Variant> safety() {
    return List.of(
        new Variant(
            "M80",
            "waits 1.5 s for a silent host",
            b ->
                b.ticks =
                    () -> {
                      long silent = b.nanos - b.hostAt;
                      if (silent > 400 * MILLI && silent < 600 * MILLI) {
                        b.keepAlive();
                      }
                    }),
        new Variant(
            "M81",
            "is kept alive by damaged frames",
            b ->
                b.heardNoise =
                    (broken, encoded) -> {
                      broken.plain(encoded);
                      broken.keepAlive();
                    }),
        said(
            "M86",
            "does not tell that its lid was opened",
            (b, f) -> {
              if (!is(f, EVENT) || f.payload().at(0) != 1) {
                b.up(f);
              }
            }),
        asked(
            "M88",
            "needs 2.5 s to start",
            (b, f) -> {
              if (b.nanos > 3_800 * MILLI || !is(f, 1)) {
                b.down(f);
              }
            }),
        asked(
            "M91",
            "is deaf for a while after an overlong request",
            (b, f) -> {
              if (is(f, 2) && f.payload().size() > 100) {
                b.quietUntil = b.nanos + 1_500 * MILLI;
              }
              if (b.nanos >= b.quietUntil) {
                b.down(f);
              }
            }),
        said(
            "M92",
            "sends pages twice",
            (b, f) -> {
              b.up(f);
              if (is(f, PAGE)) {
                b.up(f);
              }
            }));
  }
}
