package org.jointwalk.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.jointwalk.files.EventText;
import org.jointwalk.job.Event;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Job;
import org.jointwalk.job.Logged;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.Seen;
import org.jointwalk.job.Verdict;

/**
 * Jobs as JSON: names in snake case, choices as they are typed, times in ISO 8601, nothing where
 * there is nothing to say. Names are added, never changed. Readings are left to the export.
 */
final class JobJson {

  private static final EventText KINDS =
      new EventText((kind, text) -> "", hash -> java.util.Optional.empty());

  private final JsonGenerator json;

  private JobJson(JsonGenerator json) {
    this.json = json;
  }

  /** Writes the latest jobs in short. */
  static void list(PrintWriter out, Path log, int older, List<Job> jobs) {
    JsonText.write(
        out,
        generator -> {
          JobJson json = new JobJson(generator);
          json.json.writeStartObject();
          json.json.writeStringField("log", log.toString());
          json.json.writeNumberField("older_jobs", older);
          json.json.writeArrayFieldStart("jobs");
          for (Job job : jobs) {
            json.json.writeStartObject();
            json.summary(job);
            json.json.writeEndObject();
          }
          json.json.writeEndArray();
          json.json.writeEndObject();
        });
  }

  /** Writes one job. */
  static void show(PrintWriter out, Path log, Job job) {
    JsonText.write(
        out,
        generator -> {
          JobJson json = new JobJson(generator);
          json.json.writeStartObject();
          json.json.writeStringField("log", log.toString());
          json.summary(job);
          json.seen(job);
          json.passes(job);
          WatchText.write(generator, job);
          json.finding(job);
          json.record(job);
          json.json.writeEndObject();
        });
  }

  private void summary(Job job) throws IOException {
    Logged first = job.timeline().get(0);
    json.writeStringField("job", job.id());
    json.writeStringField("state", job.closed() ? "closed" : "open");
    json.writeStringField("device", job.intake().device());
    text("serial", job.intake().serial());
    text("happened", job.intake().happened());
    texts("fails", job.intake().fails());
    text("note", job.intake().note());
    time(first);
    text("by", Sentences.by(first.event()));
    json.writeStringField("interposer_on", Choice.word(job.attachment()));
    json.writeStringField("works_clamped", Choice.word(job.clamped()));
    json.writeNumberField("pass_count", job.passes().size());
  }

  private void seen(Job job) throws IOException {
    json.writeArrayFieldStart("seen");
    for (Seen seen : job.seen()) {
      json.writeStartObject();
      json.writeStringField("side", Choice.word(seen.side()));
      json.writeStringField("position", seen.position());
      json.writeStringField("look", Choice.word(seen.look()));
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void passes(Job job) throws IOException {
    json.writeArrayFieldStart("passes");
    for (PassRecord pass : job.passes()) {
      json.writeStartObject();
      json.writeNumberField("pass", pass.begun().pass());
      json.writeStringField("set_up", pass.begun().setUp());
      json.writeStringField("purpose", Choice.word(pass.begun().purpose()));
      json.writeNumberField("seatings", pass.seatings().size());
      json.writeNumberField(
          "readings", pass.scans().stream().mapToInt(PassRecord.ScanRecord::taken).sum());
      json.writeBooleanField("finished", !pass.open());
      if (pass.graded().isPresent()) {
        json.writeObjectFieldStart("grades");
        for (Map.Entry<Grade, Integer> count : pass.graded().get().findings().counts().entrySet()) {
          json.writeNumberField(Choice.word(count.getKey()).replace('-', '_'), count.getValue());
        }
        json.writeEndObject();
      }
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void finding(Job job) throws IOException {
    if (Verdicts.last(job).isPresent()) {
      Verdict verdict = Verdicts.last(job).get();
      json.writeObjectFieldStart("finding");
      json.writeStringField("headline", verdict.headline());
      json.writeStringField("fit", Choice.word(verdict.fit()));
      json.writeStringField("next", verdict.next().what());
      json.writeNumberField("next_minutes", verdict.next().minutes());
      json.writeEndObject();
    }
  }

  private void record(Job job) throws IOException {
    json.writeArrayFieldStart("record");
    for (Logged entry : job.timeline()) {
      Event event = entry.event();
      json.writeStartObject();
      json.writeNumberField("seq", entry.seq());
      time(entry);
      json.writeStringField("kind", KINDS.kind(event));
      text("by", Sentences.by(event));
      json.writeStringField("what", Sentences.of(event));
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void time(Logged entry) throws IOException {
    json.writeStringField("at", entry.at().toString());
    json.writeStringField("zone", entry.zone().getId());
  }

  private void text(String name, String value) throws IOException {
    if (!value.isEmpty()) {
      json.writeStringField(name, value);
    }
  }

  private void texts(String name, List<String> values) throws IOException {
    json.writeArrayFieldStart(name);
    for (String value : values) {
      json.writeString(value);
    }
    json.writeEndArray();
  }
}
