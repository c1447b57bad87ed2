package org.jointwalk.conform;

import static org.jointwalk.conform.Broken.DECLARED;
import static org.jointwalk.conform.Broken.EVENT;
import static org.jointwalk.conform.Broken.PAGE;
import static org.jointwalk.conform.Broken.REFUSED;
import static org.jointwalk.conform.Broken.RESULTS;
import static org.jointwalk.conform.Broken.STATE;
import static org.jointwalk.conform.Broken.WELCOME;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.BiPredicate;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import org.jointwalk.protocol.Bytes;

/**
 * A fixture that breaks one clause and keeps all others.
 *
 * @param clause that it breaks
 * @param what it does
 * @param breaks a sound device
 */
record Variant(String clause, String what, Consumer<Broken> breaks) {

  /** The clause that takes two lines to break. */
  static final String OTHER_LINE = "M27";

  static final long MILLI = 1_000_000;

  @Override
  public String toString() {
    return clause + ": " + what;
  }

  Broken broken() {
    Broken broken = new Broken();
    breaks.accept(broken);
    return broken;
  }

  static Variant asked(String clause, String what, Broken.Way way) {
    return new Variant(clause, what, broken -> broken.asked = way);
  }

  static Variant said(String clause, String what, Broken.Way way) {
    return new Variant(clause, what, broken -> broken.said = way);
  }

  /** Takes some frames for others. */
  static Variant takes(
      String clause, String what, Predicate<RawFrame> which, UnaryOperator<RawFrame> as) {
    return asked(clause, what, (b, f) -> b.down(which.test(f) ? as.apply(f) : f));
  }

  /** Says other frames than it should. */
  static Variant tells(
      String clause, String what, BiPredicate<Broken, RawFrame> which, UnaryOperator<RawFrame> as) {
    return said(clause, what, (b, f) -> b.up(which.test(b, f) ? as.apply(f) : f));
  }

  /** Does as if nothing had been streamed. */
  static Variant passesOver(String clause, String what, BiPredicate<Broken, RawFrame> which) {
    return asked(
        clause,
        what,
        (b, f) -> {
          if (which.test(b, f)) {
            b.nothing(f);
          } else {
            b.down(f);
          }
        });
  }

  private static Variant deaf(String clause, String what, Predicate<RawFrame> which) {
    return asked(
        clause,
        what,
        (b, f) -> {
          if (!which.test(f)) {
            b.down(f);
          }
        });
  }

  static boolean is(RawFrame frame, int type) {
    return frame.type() == type;
  }

  static boolean refuses(RawFrame frame, int request, int code) {
    return is(frame, REFUSED) && frame.payload().at(0) == request && frame.u16(1) == code;
  }

  static boolean refusesStep(RawFrame frame, int reason) {
    return is(frame, RESULTS)
        && frame.payload().at(22) == 1
        && frame.payload().at(23) == 0x40
        && frame.payload().at(24) == reason;
  }

  private static RawFrame declared(RawFrame frame) {
    return frame.typed(DECLARED).sized(4);
  }

  static List<Variant> all() {
    List<Variant> all = new ArrayList<>();
    all.addAll(framing());
    all.addAll(sessions());
    all.addAll(requests());
    all.addAll(declarations());
    all.addAll(RunVariants.all());
    return all;
  }

  private static List<Variant> framing() {
    return List.of(
        tells(
            "M1",
            "sends large indices with their most significant byte first",
            (b, f) -> is(f, STATE) && f.u32(31) > 0xFF_FFFFL,
            f ->
                f.with(
                    31,
                    f.payload().at(34),
                    f.payload().at(33),
                    f.payload().at(32),
                    f.payload().at(31))),
        takes(
            "M2",
            "does not look at the reserved byte of HELLO",
            f -> is(f, 1) && f.payload().size() == 16 && f.payload().at(7) != 0,
            f -> f.with(7, 0)),
        takes(
            "M3",
            "takes a voltage of -2^31 for 0",
            f -> is(f, 0x41) && f.payload().size() >= 42 && f.u32(9) == 0x8000_0000L,
            f -> f.with32(9, 0)),
        takes(
            "M4",
            "takes control characters in a name",
            f -> is(f, 3) && f.payload().size() > 2 && f.payload().at(2) == 7,
            f -> f.with(2, 'e')),
        new Variant(
            "M5",
            "reads a frame of 8 bytes as if it had 9",
            b ->
                b.heardNoise =
                    (broken, encoded) -> {
                      if (RawFrame.decoded(encoded).filter(raw -> raw.length == 8).isPresent()) {
                        RawFrame last = broken.last;
                        broken.down(
                            new RawFrame(
                                7, last.session(), last.number() + 1 & 0xFFFF, Bytes.NONE));
                      } else {
                        broken.plain(encoded);
                      }
                    }),
        new Variant(
            "M6",
            "does not look at one bit in eight of the check",
            b -> b.heardNoise = Variant::nearly),
        deaf(
            "M7",
            "has no room for the longest frame of a type that it does not know",
            f -> f.payload().size() > 240 && f.type() != 4),
        new Variant(
            "M9", "stops at the end of an encoding that lies", b -> b.heardNoise = Variant::lying),
        said(
            "M10",
            "counts empty frames as dropped",
            (b, f) -> {
              int count = is(f, STATE) ? f.u16(16) + b.empties : 0;
              b.up(is(f, STATE) ? f.with(16, count, count >> 8) : f);
            }),
        tells(
            "M11", "does not count dropped frames", (b, f) -> is(f, STATE), f -> f.with(16, 0, 0)),
        new Variant("M12", "begins anew after 252 bytes", b -> b.heardNoise = Variant::anew),
        asked(
            "M13",
            "drops what took more than 0.3 s to come",
            (b, f) -> {
              if (b.slowly() < 300 * MILLI) {
                b.down(f);
              }
            }),
        asked(
            "M15",
            "refuses what only a fixture sends",
            (b, f) -> {
              if (f.type() >= 0x80) {
                b.up(f.typed(REFUSED).sized(0).sized(7).with(0, f.type(), 1));
              } else {
                b.down(f);
              }
            }),
        takes(
            "M16",
            "reads STATUS however long it is",
            f -> is(f, 7) && f.payload().size() == 1,
            f -> f.sized(0)));
  }

  private static void nearly(Broken broken, byte[] encoded) {
    byte[] raw = RawFrame.decoded(encoded).orElse(new byte[0]);
    if (raw.length < 9) {
      broken.plain(encoded);
      return;
    }
    byte[] right = raw.clone();
    RawFrame.check(right);
    int wrong = 0;
    for (int i = 0; i < raw.length; i++) {
      wrong |= raw[i] ^ right[i];
    }
    if (wrong == 0x10) {
      broken.down(RawFrame.read(right).orElseThrow());
    } else {
      broken.plain(encoded);
    }
  }

  private static void lying(Broken broken, byte[] encoded) {
    byte[] cut = encoded.clone();
    int at = 0;
    while (at < cut.length && at + (cut[at] & 0xFF) < cut.length) {
      at += cut[at] & 0xFF;
    }
    if (at < cut.length) {
      cut[at]--;
    }
    RawFrame.decoded(cut)
        .flatMap(RawFrame::read)
        .ifPresentOrElse(broken::down, () -> broken.plain(encoded));
  }

  private static void anew(Broken broken, byte[] encoded) {
    if (encoded.length <= 252) {
      broken.plain(encoded);
      return;
    }
    broken.plain(Arrays.copyOf(encoded, 252));
    RawFrame.decoded(Arrays.copyOfRange(encoded, 252, encoded.length))
        .flatMap(RawFrame::read)
        .ifPresent(broken::down);
  }

  private static List<Variant> sessions() {
    return List.of(
        deaf("M17", "does not answer requests that it does not know", f -> is(f, 0x3E)),
        new Variant(
            "M19",
            "says that it has started",
            b ->
                b.ticks =
                    () -> {
                      if (b.empties == 0) {
                        b.up(new RawFrame(EVENT, 0, 0, Bytes.of(new byte[9])));
                        b.empties++;
                      }
                    }),
        tells(
            "M20",
            "refuses a version without saying which it speaks",
            (b, f) -> refuses(f, 1, 7),
            f -> f.with32(3, 0)),
        said(
            "M21",
            "has a last word for the old session",
            (b, f) -> {
              b.up(f);
              if (is(f, WELCOME) && b.session != 0 && b.session != f.session()) {
                b.up(
                    new RawFrame(
                        EVENT, b.session, 0, Bytes.of(new byte[] {3, 1, 0, 0, 0, 0, 0, 0, 0})));
              }
            }),
        takes(
            "M22",
            "lets itself be taken over by whoever says HELLO",
            f ->
                is(f, 1)
                    && f.payload().size() == 16
                    && f.payload().at(6) == 0
                    && f.payload().at(7) == 0,
            f -> f.with(6, 1)),
        asked(
            "M23",
            "ends a run at the HELLO of its own session",
            (b, f) -> {
              if (is(f, 1)
                  && f.payload().size() == 16
                  && f.session() == b.session
                  && f.payload().at(7) == 0) {
                b.stops();
              }
              b.down(f);
            }),
        said(
            "M24",
            "has another boot id in every session",
            (b, f) -> b.up(is(f, WELCOME) ? f.with(9, b.sessions) : f)),
        said(
            "M90",
            "says what nobody has defined",
            (b, f) -> {
              b.up(f);
              if (is(f, WELCOME)) {
                b.up(new RawFrame(0xC9, f.session(), 0, Bytes.of(new byte[3])));
              }
            }));
  }

  private static List<Variant> requests() {
    return List.of(
        tells(
            "M29",
            "takes a declaration from another session",
            (b, f) -> refuses(f, 3, 4),
            Variant::declared),
        tells(
            "M30",
            "looks at its clock again for a repeated RUN",
            (b, f) -> is(f, STATE) && b.repeated && b.last.type() == 5,
            f -> f.with32(12, f.u32(12) + 1)),
        tells(
            "M31",
            "takes a used number for a bad value",
            (b, f) -> is(f, REFUSED) && f.u16(1) == 5 && !b.refused,
            f -> f.with(1, 3)),
        tells(
            "M32",
            "takes an old number for a bad value",
            (b, f) -> is(f, REFUSED) && f.u16(1) == 6 && f.payload().at(0) == 2,
            f -> f.with(1, 3)),
        said(
            "M33",
            "takes 0.3 s over a page of capabilities",
            (b, f) -> {
              if (is(f, PAGE)) {
                b.upLate(f, 300);
              } else {
                b.upInTurn(f);
              }
            }),
        tells(
            "M34",
            "forgets the number of a request that it refused",
            (b, f) -> is(f, REFUSED) && f.u16(1) == 5 && b.refused,
            f -> f.with(1, 3)),
        tells(
            "M35",
            "takes an item beyond the last for a bad length",
            (b, f) ->
                refuses(f, 2, 3) && b.last.payload().size() == 1 && b.last.payload().at(0) != 255,
            f -> f.with(1, 2)),
        tells(
            "M36",
            "has an old check over its capabilities",
            (b, f) -> is(f, WELCOME),
            f -> f.with32(52, f.u32(52) ^ 1)));
  }

  private static List<Variant> declarations() {
    return List.of(
        tells(
            "M38",
            "takes the place of a class that there is not",
            (b, f) -> refuses(f, 4, 3) && b.last.u16(2) == 1,
            Variant::declared),
        tells(
            "M39",
            "takes bare metal on a board",
            (b, f) ->
                refuses(f, 3, 3)
                    && b.declare.payload().size() == 14
                    && b.declare.payload().at(8) == 4
                    && b.declare.payload().at(0) == 2,
            Variant::declared),
        tells(
            "M40", "takes places without classes", (b, f) -> refuses(f, 4, 11), Variant::declared),
        tells(
            "M41",
            "leaves delicate channels out of the check",
            (b, f) ->
                is(f, DECLARED)
                    && b.declare.payload().size() == 14
                    && b.declare.payload().at(9) == 3,
            f -> f.with32(0, f.u32(0) ^ 1)),
        tells(
            "M42",
            "remembers the declaration of the session before",
            (b, f) -> refuses(f, 5, 11) && b.run.u32(0) == 77,
            f -> f.with(1, 12)),
        tells(
            "M43",
            "takes an undeclared channel for one that it lacks",
            (b, f) -> refusesStep(f, 3),
            f -> f.with(24, 2)));
  }
}
