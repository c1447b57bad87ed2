package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Frames with a good check whose content is wrong, and what a reader finds. */
final class Broken {

  /** Types whose payload is not told by one length alone. */
  private static final List<Integer> LOOSE =
      List.of(Streamed.SetBits.TYPE, Streamed.Setting.TYPE, Answer.Page.TYPE);

  private final Map<String, Samples.Sample> samples =
      Samples.all().stream().collect(Collectors.toMap(Samples.Sample::name, s -> s));
  private final List<Vector> vectors = new ArrayList<>();

  private Broken() {}

  /**
   * A frame that is refused.
   *
   * @param code of the refusal that its reader finds
   */
  record Vector(String name, List<String> clauses, int type, Bytes raw, Refusal code) {}

  static List<Vector> all() {
    Broken broken = new Broken();
    broken.lengths();
    broken.requests();
    broken.stream();
    broken.answers();
    broken.notices();
    broken.types();
    return broken.vectors;
  }

  private void add(String name, String clauses, int type, Bytes payload, Refusal code) {
    Bytes raw = Lines.raw(type, Samples.SESSION, 99, payload);
    vectors.add(new Vector(name, List.of(clauses.split(" ", -1)), type, raw, code));
  }

  private Message message(String sample) {
    Samples.Sample found = samples.get(sample);
    if (found == null) {
      throw new IllegalArgumentException("no sample " + sample);
    }
    return found.message();
  }

  /** The payload of a sample with bytes changed from an offset on. */
  private void value(String name, String clauses, String sample, int offset, String hex) {
    Message message = message(sample);
    Bytes payload = message.payload();
    Bytes patch = Bytes.ofHex(hex);
    for (int i = 0; i < patch.size(); i++) {
      payload = Lines.changed(payload, offset + i, patch.at(i));
    }
    add(name, clauses, message.type(), payload, Refusal.BAD_VALUE);
  }

  private void length(String name, String sample, int size) {
    Message message = message(sample);
    Bytes payload = message.payload();
    Bytes changed =
        size <= payload.size()
            ? Lines.part(payload, 0, size)
            : Lines.join(payload, Lines.repeat(1, size - payload.size()));
    add(name, "M16", message.type(), changed, Refusal.BAD_LENGTH);
  }

  /** The payload of a sample up to a count that is zero. */
  private void none(String name, String clauses, String sample, int offset) {
    Message message = message(sample);
    Bytes payload = Lines.join(Lines.part(message.payload(), 0, offset), Lines.repeat(0, 1));
    add(name, clauses, message.type(), payload, Refusal.BAD_VALUE);
  }

  private void lengths() {
    List<Integer> seen = new ArrayList<>();
    for (Samples.Sample sample : Samples.all()) {
      int type = sample.message().type();
      int size = sample.message().payload().size();
      if (seen.contains(type)) {
        continue;
      }
      seen.add(type);
      if (type != Streamed.SetBits.TYPE && size > 0) {
        length(sample.name() + "-one-byte-short", sample.name(), size - 1);
        length(sample.name() + "-empty", sample.name(), 0);
      }
      if (!LOOSE.contains(type)) {
        length(sample.name() + "-one-byte-long", sample.name(), size + 1);
      }
    }
    length("setting-half-an-item", "setting-brief-with-an-item-to-ignore", 43);
    length("set-without-bits", "set-anew", 8);
    length("set-change-half-a-channel", "set-change", 8);
    length("declare-without-its-last-class", "declare-lower-board", 40);
    length("page-item-beyond-the-end", "page", 5);
    length("steps-fewer-than-counted", "steps-of-every-form", 11);
    length("results-fewer-than-counted", "results-of-every-status", 59);
  }

  private void requests() {
    value("hello-other-magic", "M20", "hello", 3, "79");
    value("hello-version-zero", "M20", "hello", 4, "00");
    value("hello-highest-below-lowest", "M20", "hello", 4, "0201");
    value("hello-reserved-flag", "M2", "hello", 6, "02");
    value("hello-reserved-byte", "M2", "hello", 7, "01");
    value("hello-session-zero", "M25", "hello", 8, "0000");
    value("hello-of-another-session", "M20", "hello", 8, "389e");
    value("declare-reserved-part", "M2", "declare-nothing-clamped", 0, "10");
    value("declare-nameless", "M4", "declare-nothing-clamped", 1, "00");
    value("declare-name-too-long", "M4", "declare-all-classes", 1, "21");
    value("declare-name-not-utf-8", "M4", "declare-nothing-clamped", 2, "c328");
    value("declare-name-with-a-line-end", "M4", "declare-nothing-clamped", 2, "0a");
    value("declare-name-with-delete", "M4", "declare-nothing-clamped", 2, "7f");
    value("declare-too-many-classes", "M39", "declare-nothing-clamped", 7, "10");
    value("declare-unknown-class", "M39", "declare-lower-board", 22, "05");
    value("declare-class-zero", "M39", "declare-lower-board", 22, "00");
    value("declare-reserved-flag", "M2", "declare-lower-board", 23, "04");
    value("declare-negative-nominal", "M39", "declare-lower-board", 24, "ffffffff");
    value("declare-least-nominal", "M3 M39", "declare-lower-board", 24, "00000080");
    value("declare-bare-with-a-board", "M39", "declare-lower-board", 22, "04");
    value("declare-ground-without-a-board", "M39", "declare-all-classes", 35, "01");
    value("channels-odd-first", "M38", "channels-two", 0, "01");
    value("channels-none", "M38", "channels-two", 2, "00");
    value("channels-too-many", "M38", "channels-two", 2, "db01");
    value("channels-beyond-the-last", "M38", "channels-two", 0, "feff");
    value("channels-reserved-half", "M2", "channels-odd-count", 5, "1f");
    value("run-zero", "M61", "run", 0, "00");
    value("run-of-no-steps", "M61", "run", 8, "00");
    value("run-beyond-the-last-index", "M61", "run", 4, "ffffffff");
  }

  private void stream() {
    value("setting-slot-too-high", "M48", "setting-all-open", 4, "80");
    value("setting-unknown-kind", "M48", "setting-all-open", 5, "09");
    value("setting-reserved-flag", "M2", "setting-all-open", 6, "02");
    value("setting-no-samples", "M48", "setting-all-open", 7, "00");
    value("setting-most-below-samples", "M48", "setting-extends", 7, "0302");
    value("setting-too-many-points", "M48", "setting-extends", 8, "19");
    value("setting-junction-of-two-points", "M48", "setting-junction", 8, "02");
    value("setting-negative-voltage", "M48", "setting-all-open", 9, "ffffffff");
    value("setting-resistance-without-current", "M48", "setting-low-level", 13, "0000000000");
    value("setting-isolation-with-a-current", "M48", "setting-isolation", 13, "0101");
    value("setting-four-currents", "M48", "setting-junction", 13, "04");
    value("setting-current-zero", "M48", "setting-junction", 18, "00000000");
    value("setting-current-least", "M3", "setting-junction", 18, "00000080");
    value("setting-current-beyond-the-count", "M2", "setting-low-level", 18, "01");
    value("set-unknown-form", "M49", "set-anew", 5, "03");
    value("set-first-not-a-multiple-of-eight", "M49", "set-anew", 6, "04");
    none("steps-none", "M50", "steps-pair", 8);
    value("steps-rest-on-force-high", "M50", "steps-of-every-form", 10, "03");
    value("steps-rest-on-sense-low", "M50", "steps-of-every-form", 10, "c0");
  }

  private void answers() {
    value("refused-for-nothing", "M18", "refused-fault", 1, "0000");
    value("welcome-other-magic", "M20", "welcome", 0, "00");
    value("welcome-of-another-session", "M20", "welcome", 5, "389e");
    value("welcome-version-zero", "M20", "welcome", 4, "00");
    value("welcome-boot-too-large", "M24", "welcome", 16, "80");
    value("welcome-unknown-lid", "M18", "welcome", 26, "03");
    value("welcome-window-too-small", "M65", "welcome", 35, "fb00");
    value("welcome-no-channels", "M18", "welcome", 37, "0000");
    value("welcome-too-few-steps", "M18", "welcome", 39, "0f00");
    value("welcome-too-few-settings", "M18", "welcome", 41, "07");
    value("welcome-too-many-settings", "M18", "welcome", 41, "81");
    value("welcome-too-few-sets", "M18", "welcome", 42, "03");
    value("welcome-no-points", "M18", "welcome", 43, "00");
    value("welcome-too-many-points", "M18", "welcome", 43, "19");
    value("welcome-negative-clamp", "M18", "welcome", 44, "ffffffff");
    value("page-beyond-the-total", "M35", "page", 0, "04");
    value("page-of-more-than-the-total", "M35", "page", 1, "02");
    value("state-doing-something-unknown", "M18", "state-idle", 0, "05");
    value("state-unknown-lid", "M18", "state-idle", 1, "03");
  }

  private void notices() {
    none("results-none", "M73", "results-one", 22);
    value("results-unknown-status", "M18", "results-one", 23, "61");
    value("results-measured-without-points", "M73", "results-most", 23, "00");
    value("results-refused-with-points", "M73", "results-one", 23, "41");
    value("results-refused-for-nothing", "M55", "results-of-every-status", 67, "00");
    value("results-too-many-points", "M73", "results-most", 23, "19");
    value("results-least-volt", "M3", "results-one", 24, "00000080");
    value("results-least-amp", "M3", "results-one", 28, "00000080");
    value("bits-none", "M76", "bits-one", 22, "0000");
    value("bits-too-many", "M76", "bits-most", 22, "6503");
    value("bits-beyond-the-count", "M2", "bits-one", 24, "05");
    value("check-neither-good-nor-bad", "M78", "check-good", 10, "02");
    value("check-least-volt", "M3", "check-good", 11, "00000080");
    value("heard-gap-of-two", "M62", "heard", 6, "02");
    value("end-of-no-run", "M70", "end-done", 0, "00");
    value("end-that-is-none", "M70", "end-done", 6, "00");
  }

  private void types() {
    for (int type : List.of(0x00, 0x08, 0x3F, 0x40, 0x5F, 0x60, 0x7F)) {
      add("unknown-type-" + hex(type), "M17", type, Bytes.ofHex("00"), Refusal.UNKNOWN_TYPE);
    }
    for (int type : List.of(0x85, 0xBF, 0xC0, 0xDF, 0xE0, 0xFF)) {
      add("unknown-type-" + hex(type), "M18", type, Bytes.NONE, Refusal.UNKNOWN_TYPE);
    }
  }

  private static String hex(int type) {
    return Lines.repeat(type, 1).toString();
  }
}
