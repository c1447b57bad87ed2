package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Vectors of what a fixture remembers: the last request, the stream, and what is proved bare. */
final class Orders {

  private Orders() {}

  static void add(List<Map<String, Object>> all) {
    requests(all);
    streams(all);
    proofs(all);
  }

  /** A request, and what is to be done with it: 0 execute, 1 send the last answer again. */
  private record Asked(int session, int number, long check, int again, int code) {}

  private static Map<String, Object> requests(String name, String clause, Asked... asked) {
    Map<String, Object> vector = Rules.vector("requests", name, clause);
    vector.put("session", 5);
    vector.put("number", asked[0].number());
    vector.put("check", 1000);
    List<Map<String, Object>> requests = new ArrayList<>();
    for (int i = 1; i < asked.length; i++) {
      Map<String, Object> request = new LinkedHashMap<>();
      request.put("session", asked[i].session());
      request.put("number", asked[i].number());
      request.put("check", asked[i].check());
      request.put("repeat", asked[i].again());
      request.put("code", asked[i].code());
      requests.add(request);
    }
    vector.put("requests", requests);
    return vector;
  }

  private static Asked hello(int number) {
    return new Asked(5, number, 1000, 0, 0);
  }

  private static void requests(List<Map<String, Object>> all) {
    all.add(
        requests(
            "next-numbers",
            "M28",
            hello(7),
            new Asked(5, 8, 1001, 0, 0),
            new Asked(5, 9, 1001, 0, 0)));
    all.add(
        requests(
            "numbers-turn-over",
            "M28",
            hello(65534),
            new Asked(5, 65535, 1, 0, 0),
            new Asked(5, 0, 1, 0, 0),
            new Asked(5, 65535, 1, 0, 6)));
    all.add(
        requests(
            "number-that-was-given-up-is-jumped-over", "M28", hello(7), new Asked(5, 10, 1, 0, 0)));
    all.add(
        requests(
            "repetition",
            "M30",
            hello(7),
            new Asked(5, 8, 1001, 0, 0),
            new Asked(5, 8, 1001, 1, 0),
            new Asked(5, 8, 1001, 1, 0)));
    all.add(
        requests(
            "same-number-other-bytes",
            "M31",
            hello(7),
            new Asked(5, 8, 1001, 0, 0),
            new Asked(5, 8, 1002, 0, 5),
            new Asked(5, 8, 1001, 1, 0)));
    all.add(
        requests(
            "old-number",
            "M32",
            hello(7),
            new Asked(5, 8, 1001, 0, 0),
            new Asked(5, 7, 1000, 0, 6),
            new Asked(5, 8, 1001, 1, 0)));
    all.add(
        requests(
            "furthest-ahead-and-furthest-behind",
            "M32",
            hello(0),
            new Asked(5, 32768, 1, 0, 6),
            new Asked(5, 32767, 1, 0, 0)));
    all.add(
        requests(
            "another-session",
            "M29",
            hello(7),
            new Asked(6, 8, 1001, 0, 4),
            new Asked(0, 7, 1000, 0, 4),
            new Asked(5, 8, 1001, 0, 0)));
  }

  private static void streams(List<Map<String, Object>> all) {
    all.add(stream("stream-first", 0, 1, 0));
    all.add(stream("stream-next", 41, 42, 0));
    all.add(stream("stream-turns-over", 65535, 0, 0));
    all.add(stream("stream-gap", 41, 43, 1));
    all.add(stream("stream-gap-across-the-turn", 65534, 0, 1));
    all.add(stream("stream-repeated", 41, 41, -1));
    all.add(stream("stream-old", 2, 65535, -1));
  }

  /** The frame after one that was heard: 0 is taken, 1 leaves a gap, -1 is an old one. */
  private static Map<String, Object> stream(String name, int heard, int number, int ahead) {
    Map<String, Object> vector = Rules.vector("stream", name, "M62");
    vector.put("heard", heard);
    vector.put("number", number);
    vector.put("ahead", ahead);
    return vector;
  }

  /** A step of a junction and what came of it. */
  private record Junction(
      int voltage, int current, List<Integer> high, List<Integer> low, int status, int volt) {}

  private static void proofs(List<Map<String, Object>> all) {
    Junction open = new Junction(90_000_000, 100_000, List.of(1), List.of(2), 1, 90_000_000);
    all.add(proofs("open-pair-is-proved", List.of(1, 2), open));
    all.add(
        proofs(
            "metal-is-proved",
            List.of(1, 2),
            new Junction(100_000_000, -100_000, List.of(1), List.of(2), 0, -1_000_000)));
    all.add(
        proofs(
            "junction-takes-the-proof-from-both",
            List.of(),
            open,
            new Junction(100_000_000, 10_000_000, List.of(2), List.of(1), 0, 1_000_001)));
    all.add(
        proofs(
            "junction-elsewhere-leaves-it",
            List.of(1),
            open,
            new Junction(100_000_000, 100_000, List.of(2), List.of(3), 0, 45_000_000)));
    all.add(
        proofs(
            "too-much-current-proves-nothing",
            List.of(),
            new Junction(90_000_000, 100_001, List.of(1), List.of(2), 1, 0)));
    all.add(
        proofs(
            "too-little-voltage-proves-nothing",
            List.of(),
            new Junction(89_999_999, 100_000, List.of(1), List.of(2), 1, 0)));
    all.add(
        proofs(
            "refused-step-proves-nothing",
            List.of(1, 2),
            open,
            new Junction(90_000_000, 100_000, List.of(3), List.of(4), 2, 0)));
    all.add(
        proofs(
            "only-the-channel-that-is-alone-is-proved",
            List.of(4),
            new Junction(90_000_000, 100_000, List.of(4), List.of(1, 2, 3), 1, 0)));
  }

  private static Map<String, Object> proofs(
      String name, List<Integer> proved, Junction... junctions) {
    Map<String, Object> vector = Rules.vector("proofs", name, "M58");
    List<Map<String, Object>> steps = new ArrayList<>();
    for (Junction junction : junctions) {
      Map<String, Object> step = new LinkedHashMap<>();
      step.put("voltage", junction.voltage());
      step.put("current", junction.current());
      step.put("high", junction.high());
      step.put("low", junction.low());
      step.put("status", junction.status());
      step.put("volt", junction.volt());
      steps.add(step);
    }
    vector.put("junctions", steps);
    vector.put("proved", proved);
    return vector;
  }
}
