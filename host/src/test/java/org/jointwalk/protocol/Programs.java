package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jointwalk.fixture.Kind;

/**
 * Vectors of programs that a fixture is sent: streamed messages in their order, and the fault that
 * the last of them is. The fixture holds 16 steps, 8 settings and 4 sets, has 40 channels and takes
 * 4 points; the run has the steps 100 to 139.
 */
final class Programs {

  static final Answer.Welcome LIMITS =
      new Answer.Welcome(1, 1, 0, 0, 0, 0, 0, 0, 252, 40, 16, 8, 4, 4, 0, 0, 0, 0);

  static final Request.Run RUN = new Request.Run(1, 100, 40, 0, 0);

  private final List<Map<String, Object>> vectors = new ArrayList<>();

  private Programs() {}

  /** A message and the index of the first step without a result when it comes. */
  record Sent(Streamed message, long done) {}

  static List<Map<String, Object>> all() {
    Programs programs = new Programs();
    programs.settings();
    programs.sets();
    programs.steps();
    return programs.vectors;
  }

  private void add(String name, String clause, int fault, Sent... stream) {
    Map<String, Object> vector = new LinkedHashMap<>();
    vector.put("name", name);
    vector.put("clauses", List.of(clause.split(" ", -1)));
    List<Map<String, Object>> sent = new ArrayList<>();
    for (Sent one : stream) {
      Map<String, Object> line = new LinkedHashMap<>();
      line.put("type", one.message().type());
      line.put("payload", one.message().payload().toString());
      line.put("done", one.done());
      sent.add(line);
    }
    vector.put("stream", sent);
    vector.put("fault", fault);
    vectors.add(vector);
  }

  private static Sent sent(Streamed message) {
    return new Sent(message, RUN.first());
  }

  private static Sent sent(long done, Streamed message) {
    return new Sent(message, done);
  }

  private static Streamed.Setting setting(int slot, int most, Item... items) {
    return new Streamed.Setting(
        1, slot, Kind.RESIDUAL, false, 1, most, 0, List.of(), 0, 0, 0, 0, List.of(items));
  }

  private static Streamed.SetBits set(int slot, boolean more, int first, String bits) {
    return new Streamed.SetBits(1, slot, more, first, Bytes.ofHex(bits));
  }

  private static Streamed.Steps steps(long first, int count, int slot, Terminal high) {
    List<WireStep> steps = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      steps.add(
          new WireStep(
              slot,
              false,
              high,
              new Terminal.Channel(1),
              new Terminal.Nothing(),
              new Terminal.Nothing()));
    }
    return new Streamed.Steps(1, first, steps);
  }

  private static Streamed.Steps steps(long first, int count) {
    return steps(first, count, 0, new Terminal.Channel(0));
  }

  private void settings() {
    add("setting-last-slot", "M48", 0, sent(setting(7, 4)));
    add("setting-slot-beyond", "M48", 5, sent(setting(8, 1)));
    add("setting-points-beyond", "M48", 1, sent(setting(0, 5)));
    add("setting-item-to-ignore", "M48", 0, sent(setting(0, 1, new Item(0x80, Bytes.NONE))));
    add("setting-item-unknown", "M48", 2, sent(setting(0, 1, new Item(0x7F, Bytes.NONE))));
    add("setting-again", "M53", 0, sent(setting(0, 1)), sent(setting(0, 2)));
    add("setting-in-use", "M53", 6, sent(setting(0, 1)), sent(steps(100, 1)), sent(setting(0, 2)));
    add(
        "setting-no-longer-in-use",
        "M53",
        0,
        sent(setting(0, 1)),
        sent(steps(100, 1)),
        sent(101, setting(0, 2)));
    add(
        "setting-beside-one-in-use",
        "M53",
        0,
        sent(setting(0, 1)),
        sent(steps(100, 1)),
        sent(setting(1, 2)));
    add(
        "setting-that-a-step-named-before-it-was-filled",
        "M53",
        6,
        sent(steps(100, 1)),
        sent(setting(0, 1)));
  }

  private void sets() {
    Streamed.Steps using = steps(100, 1, 0, new Terminal.Group(1));
    add("set-last-slot-last-channel", "M49", 0, sent(set(3, false, 32, "80")));
    add("set-slot-beyond", "M49", 5, sent(set(4, false, 0, "01")));
    add("set-channel-beyond", "M49", 1, sent(set(0, false, 40, "01")));
    add("set-zeros-beyond", "M49", 0, sent(set(0, false, 32, "800000")));
    add("set-more-of-nothing", "M49", 5, sent(set(0, true, 0, "01")));
    add("set-more", "M49", 0, sent(set(0, false, 0, "01")), sent(set(0, true, 8, "01")));
    add("set-change-of-nothing", "M49", 5, sent(new Streamed.SetChange(1, 0, 0, List.of(1))));
    add(
        "set-change-of-another",
        "M49",
        0,
        sent(set(0, false, 0, "01")),
        sent(new Streamed.SetChange(1, 1, 0, List.of(0, 39))));
    add(
        "set-change-channel-beyond",
        "M49",
        1,
        sent(set(0, false, 0, "01")),
        sent(new Streamed.SetChange(1, 1, 0, List.of(40))));
    add(
        "set-change-slot-beyond",
        "M49",
        5,
        sent(set(0, false, 0, "01")),
        sent(new Streamed.SetChange(1, 4, 0, List.of())));
    add(
        "set-in-use",
        "M53",
        6,
        sent(set(1, false, 0, "01")),
        sent(using),
        sent(set(1, false, 0, "03")));
    add(
        "set-in-use-as-a-base",
        "M53",
        0,
        sent(set(1, false, 0, "01")),
        sent(using),
        sent(new Streamed.SetChange(1, 2, 1, List.of(2))));
    add(
        "set-no-longer-in-use",
        "M53",
        0,
        sent(set(1, false, 0, "01")),
        sent(using),
        sent(101, set(1, false, 0, "03")));
  }

  private void steps() {
    add("steps-first", "M50", 0, sent(steps(100, 16)));
    add("steps-not-the-first", "M50", 3, sent(steps(101, 1)));
    add("steps-before-the-first", "M50", 3, sent(steps(99, 1)));
    add("steps-again", "M50", 3, sent(steps(100, 1)), sent(steps(100, 1)));
    add("steps-with-a-gap", "M50", 3, sent(steps(100, 1)), sent(steps(102, 1)));
    add("steps-without-room", "M51 M52", 4, sent(steps(100, 17)));
    add("steps-room-used-up", "M51 M52", 4, sent(steps(100, 16)), sent(steps(116, 1)));
    add("steps-room-again", "M51 M52", 0, sent(steps(100, 16)), sent(101, steps(116, 1)));
    add(
        "steps-to-the-last",
        "M50",
        0,
        sent(steps(100, 16)),
        sent(116, steps(116, 16)),
        sent(132, steps(132, 8)));
    add(
        "steps-beyond-the-last",
        "M50",
        3,
        sent(steps(100, 16)),
        sent(116, steps(116, 16)),
        sent(132, steps(132, 9)));
    add("credit-is-no-part-of-the-program", "M67", 0, sent(new Streamed.Credit(1, 140)));
  }
}
