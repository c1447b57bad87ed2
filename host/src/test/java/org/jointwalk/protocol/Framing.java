package org.jointwalk.protocol;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** Vectors of the layers below a message: check, encoding, and what comes between delimiters. */
final class Framing {

  private static final String CATALOGUE =
      "Catalogue of parametrised CRC algorithms, reveng.sourceforge.io, CRC-32/ISCSI";
  private static final String RFC = "RFC 3720, appendix B.4";
  private static final String TABLE =
      "table of examples in Wikipedia, Consistent Overhead Byte Stuffing";
  private static final String TESTS = "cmcqueen/cobs-python, src/cobs/cobs/test.py";

  private Framing() {}

  /**
   * Data and its check.
   *
   * @param source empty when it is our own
   */
  record Check(String name, String source, Bytes data, long crc) {}

  /**
   * Data and its encodings without delimiter.
   *
   * @param source empty when it is our own
   * @param encoded what an encoder makes
   * @param also what a decoder takes as well
   */
  record Encoding(
      String name,
      List<String> clauses,
      String source,
      Bytes data,
      Bytes encoded,
      List<Bytes> also) {}

  /** What is no encoding. */
  record NoEncoding(String name, String source, Bytes encoded) {}

  /**
   * Bytes on the line and what they hold.
   *
   * @param end of the line that receives them
   * @param expected in order
   */
  record Stream(
      String name, List<String> clauses, Parser.End end, Bytes wire, List<Expected> expected) {}

  /** What a receiver makes of the bytes between two delimiters. */
  sealed interface Expected {

    /** A frame. */
    record Accept(Bytes raw) implements Expected {}

    /** Nothing that has an effect. */
    record Drop(Received.Cause cause) implements Expected {}
  }

  static List<Check> checks() {
    byte[] digits = "123456789".getBytes(StandardCharsets.US_ASCII);
    return List.of(
        new Check("digits", CATALOGUE, Bytes.of(digits), 0xE3069283L),
        new Check("zeros-32", RFC, Lines.repeat(0, 32), 0x8A9136AAL),
        new Check("ones-32", RFC, Lines.repeat(0xFF, 32), 0x62A8AB43L),
        new Check("rising-32", RFC, Lines.rising(0, 32), 0x46DD794EL),
        new Check(
            "falling-32",
            RFC + " (value from memory, recomputed)",
            Bytes.ofHex("1f1e1d1c1b1a191817161514131211100f0e0d0c0b0a09080706050403020100"),
            0x113FDB5CL),
        new Check(
            "read-command-48",
            RFC + " (value from memory, recomputed)",
            Bytes.ofHex(
                "01c00000000000000000000000000000"
                    + "14000000000004000000001400000018"
                    + "28000000000000000200000000000000"),
            0xD9963A56L),
        new Check("nothing", CATALOGUE, Bytes.NONE, 0),
        new Check("zeros-4", CATALOGUE, Lines.repeat(0, 4), 0x48674BC7L),
        new Check("digits-with-their-check", "", Lines.checked(Bytes.of(digits)), 0x48674BC7L));
  }

  static List<Encoding> encodings() {
    List<Encoding> all = new ArrayList<>();
    all.add(seen("nothing", TESTS, Bytes.NONE, "01"));
    all.add(seen("zero", TABLE, Bytes.ofHex("00"), "0101"));
    all.add(seen("two-zeros", TABLE, Bytes.ofHex("0000"), "010101"));
    all.add(seen("between-zeros", TABLE, Bytes.ofHex("001100"), "01021101"));
    all.add(seen("zero-inside", TABLE, Bytes.ofHex("11220033"), "0311220233"));
    all.add(seen("no-zero", TABLE, Bytes.ofHex("11223344"), "0511223344"));
    all.add(seen("zeros-behind", TABLE, Bytes.ofHex("11000000"), "0211010101"));
    all.add(seen("one", TESTS, Bytes.ofHex("31"), "0231"));
    all.add(
        seen(
            "words-after-zeros",
            TESTS,
            Bytes.ofHex("0031323334350036373839"),
            "010631323334350536373839"));
    all.add(
        seen(
            "words-before-zeros",
            TESTS,
            Bytes.ofHex("3132333435003637383900"),
            "063132333435053637383901"));
    all.add(table("rising-253", TESTS, Lines.rising(1, 253), "fe", Lines.rising(1, 253)));
    Bytes full = Lines.rising(1, 254);
    Bytes fullEncoded = Lines.join(Bytes.ofHex("ff"), full);
    all.add(
        new Encoding(
            "rising-254",
            List.of("M7", "M8"),
            TABLE,
            full,
            fullEncoded,
            List.of(Lines.join(fullEncoded, Bytes.ofHex("01")))));
    all.add(
        table("zero-and-rising-254", TABLE, Lines.rising(0, 255), "01ff", Lines.rising(1, 254)));
    all.add(
        own(
            "rising-255",
            TABLE,
            Lines.rising(1, 255),
            Lines.join(fullEncoded, Bytes.ofHex("02ff"))));
    all.add(
        own(
            "rising-254-and-zero",
            TABLE,
            Lines.rising(2, 255),
            Lines.join(Bytes.ofHex("ff"), Lines.rising(2, 254), Bytes.ofHex("0101"))));
    all.add(
        own(
            "rising-253-zero-one",
            TABLE,
            Lines.rising(3, 255),
            Lines.join(Bytes.ofHex("fe"), Lines.rising(3, 253), Bytes.ofHex("0201"))));
    for (int size : List.of(1, 247, 248, 250)) {
      all.add(own("zeros-" + size, "", Lines.repeat(0, size), Lines.repeat(1, size + 1)));
      all.add(
          own(
              "ones-" + size,
              "",
              Lines.repeat(0xFF, size),
              Lines.join(Lines.repeat(size + 1, 1), Lines.repeat(0xFF, size))));
    }
    Bytes twice = Lines.join(full, full);
    all.add(
        new Encoding(
            "rising-254-twice",
            List.of("M7", "M8"),
            "",
            twice,
            Lines.join(fullEncoded, fullEncoded),
            List.of(Lines.join(fullEncoded, fullEncoded, Bytes.ofHex("01")))));
    return all;
  }

  private static Encoding seen(String name, String source, Bytes data, String encoded) {
    return own(name, source, data, Bytes.ofHex(encoded));
  }

  private static Encoding table(
      String name, String source, Bytes data, String codes, Bytes behind) {
    return own(name, source, data, Lines.join(Bytes.ofHex(codes), behind));
  }

  private static Encoding own(String name, String source, Bytes data, Bytes encoded) {
    return new Encoding(name, List.of("M7"), source, data, encoded, List.of());
  }

  static List<NoEncoding> noEncodings() {
    return List.of(
        new NoEncoding("nothing-at-all", "", Bytes.NONE),
        new NoEncoding("code-zero", TESTS, Bytes.ofHex("00")),
        new NoEncoding("code-beyond-the-end", TESTS, Bytes.ofHex("05313233")),
        new NoEncoding("zero-after-a-block", TESTS, Bytes.ofHex("053132333400")),
        new NoEncoding("zero-in-a-block", TESTS, Bytes.ofHex("0531320034")),
        new NoEncoding("code-alone", "", Bytes.ofHex("02")),
        new NoEncoding("full-code-beyond-the-end", "", Lines.repeat(0xFF, 254)),
        new NoEncoding("second-code-beyond-the-end", "", Bytes.ofHex("0131043233")));
  }

  private final List<Stream> streams = new ArrayList<>();

  private void add(String name, String clauses, Bytes wire, Expected... expected) {
    streams.add(
        new Stream(
            name, List.of(clauses.split(" ", -1)), Parser.End.FIXTURE, wire, List.of(expected)));
  }

  private static Expected drop(Received.Cause cause) {
    return new Expected.Drop(cause);
  }

  static List<Stream> streams() {
    Framing framing = new Framing();
    framing.lengths();
    framing.damage();
    framing.noise();
    framing.directions();
    return framing.streams;
  }

  private static final Bytes SHORTEST = Lines.raw(0x06, Samples.SESSION, 18, Bytes.NONE);
  private static final Bytes LONGEST = longest(0x5A);
  private static final Bytes ZERO = Lines.repeat(0, 1);

  /** A frame of 250 bytes; SET with 233 equal bytes of bits. */
  private static Bytes longest(int fill) {
    return new Frame(0, 0, new Streamed.SetBits(0, 0, false, 0, Lines.repeat(fill, 233))).raw();
  }

  private void lengths() {
    Expected stop = new Expected.Accept(SHORTEST);
    add("shortest", "M5", Lines.wire(SHORTEST), stop);
    add("longest", "M5", Lines.wire(LONGEST), new Expected.Accept(LONGEST));
    add("longest-of-zeros", "M5 M7", Lines.wire(longest(0)), new Expected.Accept(longest(0)));
    add("longest-of-ones", "M5 M7", Lines.wire(longest(0xFF)), new Expected.Accept(longest(0xFF)));
    add(
        "one-byte-too-short",
        "M5",
        Lines.wire(Lines.checked(Bytes.ofHex("06379e12"))),
        drop(Received.Cause.LENGTH));
    add("check-alone", "M5", Lines.wire(Bytes.ofHex("00000000")), drop(Received.Cause.LENGTH));
    add("no-data", "M5", Bytes.ofHex("0100"), drop(Received.Cause.LENGTH));
    add(
        "one-byte-too-long",
        "M5 M12",
        Lines.wire(Lines.raw(0x42, 0, 0, Lines.repeat(0x5A, 242))),
        drop(Received.Cause.OVERSIZE));
    add(
        "longest-that-is-no-encoding",
        "M12",
        Lines.join(Lines.repeat(0xFF, 251), ZERO),
        drop(Received.Cause.COBS));
    for (int size : List.of(252, 253, 254, 255, 256, 1000)) {
      add(
          "oversize-" + size,
          "M12 M13",
          Lines.join(Lines.repeat(0x55, size), ZERO, Lines.wire(SHORTEST)),
          drop(Received.Cause.OVERSIZE),
          stop);
    }
    add(
        "oversize-with-a-full-block",
        "M8 M12",
        Lines.wire(Lines.rising(1, 254)),
        drop(Received.Cause.OVERSIZE));
  }

  private void damage() {
    Bytes run = new Frame(Samples.SESSION, 16, new Request.Run(1, 0, 100, 64, 5)).raw();
    for (int at : List.of(0, 1, 5, 20, run.size() - 1)) {
      add(
          "one-bit-wrong-in-byte-" + at,
          "M6 M11",
          Lines.wire(Lines.changed(run, at, run.at(at) ^ 0x10)),
          drop(Received.Cause.CHECK));
    }
    add(
        "check-of-zeros",
        "M6",
        Lines.wire(Lines.join(Lines.part(run, 0, 25), Lines.repeat(0, 4))),
        drop(Received.Cause.CHECK));
    Bytes reversed = run;
    for (int i = 0; i < 4; i++) {
      reversed = Lines.changed(reversed, 25 + i, run.at(28 - i));
    }
    add("check-in-the-other-order", "M1 M6", Lines.wire(reversed), drop(Received.Cause.CHECK));
    Bytes wire = Lines.wire(run);
    add(
        "last-byte-lost",
        "M9 M11",
        Lines.join(Lines.part(wire, 0, wire.size() - 2), ZERO),
        drop(Received.Cause.COBS));
    add("first-byte-lost", "M11", Lines.part(wire, 1, wire.size()), drop(Received.Cause.CHECK));
    add(
        "byte-doubled",
        "M11",
        Lines.join(Lines.part(wire, 0, 3), Lines.part(wire, 2, wire.size())),
        drop(Received.Cause.CHECK));
    Bytes longer = Lines.wire(LONGEST);
    add(
        "cut-in-two-by-a-zero",
        "M9 M13",
        Lines.join(Lines.part(longer, 0, 100), ZERO, Lines.part(longer, 101, longer.size())),
        drop(Received.Cause.COBS),
        drop(Received.Cause.COBS));
    add(
        "delimiter-lost",
        "M11 M13",
        Lines.join(Lines.part(wire, 0, wire.size() - 1), wire, wire),
        drop(Received.Cause.CHECK),
        new Expected.Accept(run));
    add("code-beyond-the-end", "M9", Bytes.ofHex("0a06379e1200"), drop(Received.Cause.COBS));
  }

  private void noise() {
    Expected stop = new Expected.Accept(SHORTEST);
    Bytes wire = Lines.wire(SHORTEST);
    add("delimiters-only", "M10", Lines.repeat(0, 5));
    add("delimiters-around", "M10 M14", Lines.join(ZERO, ZERO, wire, ZERO), stop);
    add("two-in-a-row", "M13", Lines.join(wire, wire), stop, stop);
    add(
        "noise-before",
        "M13",
        Lines.join(Bytes.ofHex("a55affee8001"), ZERO, wire),
        drop(Received.Cause.COBS),
        stop);
    add(
        "noise-that-runs-into-a-frame",
        "M13",
        Lines.join(Bytes.ofHex("a55a"), wire, wire),
        drop(Received.Cause.COBS),
        stop);
    add(
        "words-of-a-boot-loader",
        "M13",
        Lines.join(Bytes.of("boot 1.2\r\nok\r\n".getBytes(StandardCharsets.US_ASCII)), ZERO, wire),
        drop(Received.Cause.COBS),
        stop);
    add("frame-without-its-delimiter", "M13", Lines.part(wire, 0, wire.size() - 1));
  }

  private void directions() {
    Bytes declared = new Frame(Samples.SESSION, 11, new Answer.Declared(1)).raw();
    add("answer-to-a-fixture", "M15", Lines.wire(declared), drop(Received.Cause.DIRECTION));
    streams.add(
        new Stream(
            "echo-of-a-request",
            List.of("M15"),
            Parser.End.HOST,
            Lines.join(Lines.wire(SHORTEST), Lines.wire(declared)),
            List.of(drop(Received.Cause.DIRECTION), new Expected.Accept(declared))));
  }
}
