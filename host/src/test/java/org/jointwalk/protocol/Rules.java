package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.fixture.Kind;

/** Vectors of what a fixture computes. The expected numbers are worked out by hand. */
final class Rules {

  private static final long MOST = 0xFFFF_FFFFL;

  private Rules() {}

  static List<Map<String, Object>> all() {
    List<Map<String, Object>> all = new ArrayList<>();
    answers(all);
    extensions(all);
    checks(all);
    Orders.add(all);
    return all;
  }

  static Map<String, Object> vector(String rule, String name, String... clauses) {
    Map<String, Object> vector = new LinkedHashMap<>();
    vector.put("name", name);
    vector.put("clauses", List.of(clauses));
    vector.put("rule", rule);
    return vector;
  }

  private static Map<String, Object> answer(
      String name, Kind kind, long answer, int over, List<List<Integer>> points) {
    Map<String, Object> vector = vector("answer", name, "M47");
    vector.put("kind", KindCode.of(kind));
    vector.put("over", over);
    vector.put("points", points);
    vector.put("answer", answer);
    return vector;
  }

  private static void answers(List<Map<String, Object>> all) {
    int top = Integer.MAX_VALUE;
    // 0.084 V at 12 mA is 7 ohm.
    all.add(
        answer(
            "seven-ohm", Kind.LOW_LEVEL, 7_000_000, 0, List.of(List.of(8_400_000, 120_000_000))));
    all.add(
        answer(
            "seven-ohm-both-negative",
            Kind.NORMAL_LEVEL,
            7_000_000,
            0,
            List.of(List.of(-8_400_000, -120_000_000))));
    all.add(answer("rounded-down", Kind.LOW_LEVEL, 33_333_333, 0, List.of(List.of(1_000, -3_000))));
    all.add(answer("no-current", Kind.LOW_LEVEL, MOST, 0, List.of(List.of(1, 0))));
    all.add(answer("too-large", Kind.LOW_LEVEL, MOST, 0, List.of(List.of(top, 1))));
    all.add(answer("over-range", Kind.LOW_LEVEL, MOST, 1, List.of(List.of(2_000_000, 17))));
    // 50 mV and 5 microampere are 10 kilohm.
    all.add(answer("ten-kilohm", Kind.ISOLATION, 100_000, 0, List.of(List.of(5_000_000, 50_000))));
    all.add(
        answer("isolation-no-current", Kind.ISOLATION, MOST, 0, List.of(List.of(5_000_000, 0))));
    all.add(answer("current-of-all-open", Kind.ALL_OPEN, 12, 0, List.of(List.of(top, -12))));
    all.add(answer("current-of-charge", Kind.CHARGE, 77, 0, List.of(List.of(15_000_000, 77))));
    all.add(
        answer("voltage-there", Kind.RESIDUAL, 380_000_000, 0, List.of(List.of(-380_000_000, 0))));
    all.add(
        answer(
            "voltage-at-the-largest-current",
            Kind.JUNCTION,
            62_000_000,
            0,
            List.of(
                List.of(45_000_000, 500_000),
                List.of(53_000_000, 2_240_000),
                List.of(62_000_000, 10_000_000),
                List.of(45_100_000, 500_000))));
  }

  /** A limit of 100 with 30 on the good side and 40 on the bad one, one to four points. */
  private static Map<String, Object> extension(
      String name, int taken, Notice.Brief bits, Long... answers) {
    return extension(name, List.of(1, 4, 100, 30, 40), taken, bits, answers);
  }

  private static Map<String, Object> extension(
      String name, List<Integer> rule, int taken, Notice.Brief bits, Long... answers) {
    Map<String, Object> vector = vector("extension", name, "M47", "M76");
    vector.put("samples", rule.get(0));
    vector.put("most", rule.get(1));
    vector.put("limit", rule.get(2));
    vector.put("below", rule.get(3));
    vector.put("above", rule.get(4));
    vector.put("answers", List.of(answers));
    vector.put("taken", taken);
    vector.put("bits", bits.code());
    return vector;
  }

  private static void extensions(List<Map<String, Object>> all) {
    all.add(extension("good-at-once", 1, Notice.Brief.BELOW, 70L, 0L, 0L, 0L));
    all.add(extension("bad-at-once", 1, Notice.Brief.ABOVE, 140L, 0L, 0L, 0L));
    all.add(extension("good-after-two", 2, Notice.Brief.BELOW, 85L, 85L, 0L, 0L));
    all.add(extension("bad-after-three", 3, Notice.Brief.ABOVE, 114L, 113L, 113L, 0L));
    all.add(extension("one-short-of-good", 2, Notice.Brief.BELOW, 71L, 99L, 0L, 0L));
    all.add(extension("never-decided", 4, Notice.Brief.UNDECIDED, 110L, 90L, 110L, 90L));
    all.add(extension("decided-by-the-last", 4, Notice.Brief.ABOVE, 110L, 110L, 110L, 110L));
    all.add(
        extension(
            "without-boundaries", List.of(2, 4, 100, 0, 0), 2, Notice.Brief.ABOVE, 101L, 100L, 0L));
    all.add(
        extension(
            "on-the-limit-without-boundaries",
            List.of(1, 4, 100, 0, 0),
            1,
            Notice.Brief.BELOW,
            100L,
            0L));
    all.add(
        extension(
            "samples-come-first",
            List.of(3, 4, 100, 30, 40),
            3,
            Notice.Brief.BELOW,
            0L,
            0L,
            0L,
            0L));
    all.add(
        extension(
            "too-large-is-above", List.of(1, 24, 100, 30, 40), 1, Notice.Brief.ABOVE, MOST, 0L));
  }

  private static void checks(List<Map<String, Object>> all) {
    Request.Declare declare =
        new Request.Declare(
            Set.of(Request.Part.LOWER_BOARD),
            "lower-board",
            List.of(
                new Touch(Touch.Kind.GROUND, false, false, 0),
                new Touch(Touch.Kind.RAIL, false, false, 80_000_000),
                new Touch(Touch.Kind.SIGNAL, false, true, 0)));
    Request.Channels first = new Request.Channels(0, List.of(1, 2, 3, 0, 1));
    Request.Channels second = new Request.Channels(4, List.of(3, 1));
    Declaration held = Declaration.begun(declare, 9);
    all.add(declaration("declared-alone", declare, List.of(), held));
    held = held.with(first).orElseThrow();
    all.add(declaration("declared-with-channels", declare, List.of(first), held));
    held = held.with(second).orElseThrow();
    all.add(declaration("declared-anew-in-part", declare, List.of(first, second), held));

    Map<String, Object> capabilities = vector("capabilities", "capability-items", "M36");
    List<Item> items =
        List.of(new Item(0x01, Bytes.ofHex("6d617273682d31")), new Item(0x90, Bytes.ofHex("00ff")));
    capabilities.put("items", "01076d617273682d31900200ff");
    capabilities.put("check", CapabilityItems.check(items));
    all.add(capabilities);
  }

  private static Map<String, Object> declaration(
      String name, Request.Declare declare, List<Request.Channels> channels, Declaration held) {
    Map<String, Object> vector = vector("declaration", name, "M41");
    vector.put("channels", held.places().size());
    vector.put("declare", declare.payload().toString());
    vector.put("places", channels.stream().map(c -> c.payload().toString()).toList());
    vector.put("check", held.check());
    return vector;
  }
}
