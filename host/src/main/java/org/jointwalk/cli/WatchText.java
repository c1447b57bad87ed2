package org.jointwalk.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jointwalk.job.Job;
import org.jointwalk.job.WatchEvent;
import org.jointwalk.job.WatchRecord;
import org.jointwalk.job.Watched;

/**
 * What a watch saw, in bench words and as JSON. Stateless.
 *
 * <p>As JSON a watch is an object with {@code watch}, {@code set_up}, {@code by}, {@code seconds},
 * {@code looks}, {@code finished}, {@code above_ohms}, {@code certain_s} (absent when it never
 * ended), {@code joints} (each with {@code position}, {@code against}, {@code dropouts}, {@code
 * first_s} when there was one, {@code longest_s}, {@code out_at_end}), {@code dropouts} (each with
 * {@code position}, {@code out} and {@code at_s}: every change, in order of time), {@code notes}
 * (each with {@code at_s}, {@code text} and {@code dropouts} by position until the next note) and
 * {@code unseen}. Times are seconds since the watch began.
 */
final class WatchText {

  private WatchText() {}

  /** A time of a watch: {@code 1:02.3}. */
  static String time(double seconds) {
    long tenths = Math.round(seconds * 10);
    return String.format(Locale.ROOT, "%d:%02d.%d", tenths / 600, tenths / 10 % 60, tenths % 10);
  }

  static String length(double seconds) {
    return seconds < 1
        ? String.format(Locale.ROOT, "%.0f ms", seconds * 1e3)
        : String.format(Locale.ROOT, "%.1f s", seconds);
  }

  /** The finding in one line. */
  static String headline(Watched watched) {
    List<Watched.Joint> dropping = watched.dropping();
    int all = watched.joints().size();
    return dropping.isEmpty()
        ? "NO DROPOUT OF " + all + (all == 1 ? " JOINT" : " JOINTS")
        : dropping.size()
            + " OF "
            + all
            + (dropping.size() == 1 ? " DROPS OUT: " : " DROP OUT: ")
            + dropping.stream().map(Watched.Joint::position).collect(Collectors.joining(", "));
  }

  /** All of it for the technician. */
  static void tell(Console console, WatchRecord record) {
    Watched watched = record.watched();
    console.title(headline(watched));
    Columns columns = new Columns();
    if (!watched.dropping().isEmpty()) {
      columns.row("  pad", "dropouts", "first", "longest", "at the end", "read against");
    }
    for (Watched.Joint joint : watched.dropping()) {
      columns.row(
          "  " + joint.position(),
          Integer.toString(joint.dropouts()),
          joint.firstSeconds().map(WatchText::time).orElse(""),
          "at least " + length(joint.longestSeconds()),
          joint.outAtEnd() ? "out" : "conducts",
          against(record, joint.position()).orElse(""));
    }
    columns.lines().forEach(console::line);
    for (WatchEvent.Noted note : record.notes()) {
      Map<String, Integer> counts = record.after(note);
      console.line(
          "  "
              + time(note.atSeconds())
              + "  \""
              + note.text()
              + "\": "
              + (counts.isEmpty()
                  ? "nothing dropped out from here to the next note"
                  : counts.entrySet().stream()
                      .map(e -> e.getKey() + " " + e.getValue() + "x")
                      .collect(Collectors.joining(", "))));
    }
    console.line(
        "Watched for "
            + time(watched.seconds())
            + (record.ended().isPresent() ? "" : " until it was cut off")
            + ", "
            + watched.looks()
            + " looks.");
    smallest(watched).ifPresent(console::line);
  }

  /** The smallest dropout that would have been seen. */
  static Optional<String> smallest(Watched watched) {
    if (watched.certainSeconds() <= 0 || watched.looks() == 0) {
      return Optional.empty();
    }
    double look = watched.seconds() / watched.looks();
    double round = look * watched.joints().size();
    return Optional.of(
        "SMALLEST  A dropout of "
            + length(watched.certainSeconds())
            + " or longer cannot have been missed. A shorter one is met by chance: one of 30 ms "
            + Math.round(100 * Math.min(0.99, 0.03 / round))
            + " times in 100.");
  }

  /** What to do now. */
  static String next(Watched watched) {
    List<Watched.Joint> dropping = watched.dropping();
    if (dropping.isEmpty()) {
      return "Press elsewhere or watch other joints. No dropout is no proof: clamping closes cracks.";
    }
    return "Look at "
        + AtFixture.some(dropping.stream().map(Watched.Joint::position).toList())
        + " and what they were read against under the microscope, then re-ball. "
        + "A probe that slides looks the same: clean it and watch again before you heat.";
  }

  private static Optional<String> against(WatchRecord record, String position) {
    return record.looking().stream()
        .flatMap(l -> l.looks().stream())
        .filter(l -> l.position().equals(position))
        .map(WatchEvent.Look::against)
        .reduce((first, last) -> last);
  }

  /** All watches of a job as a member of an object that is being written. */
  static void write(JsonGenerator json, Job job) throws IOException {
    json.writeArrayFieldStart("watches");
    for (WatchRecord record : WatchRecord.of(job)) {
      write(json, record);
    }
    json.writeEndArray();
  }

  /** One watch as an object. */
  static void write(JsonGenerator json, WatchRecord record) throws IOException {
    Watched watched = record.watched();
    json.writeStartObject();
    json.writeNumberField("watch", record.begun().watch());
    json.writeStringField("set_up", record.begun().setUp());
    json.writeStringField("by", record.begun().by());
    json.writeNumberField("seconds", watched.seconds());
    json.writeNumberField("looks", watched.looks());
    json.writeBooleanField("finished", record.ended().isPresent());
    if (!record.looking().isEmpty()) {
      json.writeNumberField("above_ohms", record.looking().get(0).aboveOhms());
    }
    if (watched.certainSeconds() > 0) {
      json.writeNumberField("certain_s", watched.certainSeconds());
    }
    json.writeArrayFieldStart("joints");
    for (Watched.Joint joint : watched.joints()) {
      json.writeStartObject();
      json.writeStringField("position", joint.position());
      json.writeStringField("against", against(record, joint.position()).orElse(""));
      json.writeNumberField("dropouts", joint.dropouts());
      if (joint.firstSeconds().isPresent()) {
        json.writeNumberField("first_s", joint.firstSeconds().get());
      }
      json.writeNumberField("longest_s", joint.longestSeconds());
      json.writeBooleanField("out_at_end", joint.outAtEnd());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("dropouts");
    for (WatchEvent.Edge edge : record.edges()) {
      json.writeStartObject();
      json.writeStringField("position", edge.position());
      json.writeBooleanField("out", edge.out());
      json.writeNumberField("at_s", edge.atSeconds());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("notes");
    for (WatchEvent.Noted note : record.notes()) {
      json.writeStartObject();
      json.writeNumberField("at_s", note.atSeconds());
      json.writeStringField("text", note.text());
      json.writeObjectFieldStart("dropouts");
      for (Map.Entry<String, Integer> count : record.after(note).entrySet()) {
        json.writeNumberField(count.getKey(), count.getValue());
      }
      json.writeEndObject();
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("unseen");
    for (WatchEvent.Looking looking : record.looking().stream().limit(1).toList()) {
      for (String position : looking.unseen()) {
        json.writeString(position);
      }
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  /** An entry of the record in one line. */
  static String sentence(WatchEvent event) {
    String watch = "watch " + event.watch();
    if (event instanceof WatchEvent.Begun begun) {
      return watch + " begun: " + begun.setUp();
    }
    if (event instanceof WatchEvent.Seated seated) {
      return watch + ": clamped, seating " + seated.seating().number();
    }
    if (event instanceof WatchEvent.Planned planned) {
      return watch + ": scan " + planned.scan() + " of its safety steps planned";
    }
    if (event instanceof WatchEvent.Kept kept) {
      return watch + ": " + kept.batch().readings().size() + " readings kept";
    }
    if (event instanceof WatchEvent.Looking looking) {
      return watch + ": looking at " + Sentences.count(looking.looks().size(), "joint");
    }
    if (event instanceof WatchEvent.Changed changed) {
      return watch
          + " at "
          + time(changed.atSeconds())
          + ": "
          + (changed.edges().isEmpty()
              ? "nothing new"
              : changed.edges().stream()
                  .map(e -> e.position() + (e.out() ? " out" : " back"))
                  .collect(Collectors.joining(", ")));
    }
    if (event instanceof WatchEvent.Noted noted) {
      return watch + " at " + time(noted.atSeconds()) + ": " + noted.text();
    }
    if (event instanceof WatchEvent.Ended ended) {
      return watch
          + " ended after "
          + time(ended.watched().seconds())
          + ": "
          + headline(ended.watched()).toLowerCase(Locale.ROOT);
    }
    throw new IllegalArgumentException("no words for " + event);
  }
}
