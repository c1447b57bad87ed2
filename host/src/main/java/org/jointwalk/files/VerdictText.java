package org.jointwalk.files;

import org.jointwalk.job.Event;
import org.jointwalk.job.Region;
import org.jointwalk.job.Verdict;

/** Verdicts to text and back. Stateless. */
final class VerdictText {

  private VerdictText() {}

  static void write(JsonOut out, Event.Judged event) {
    Verdict verdict = event.verdict();
    out.with("headline", verdict.headline()).key("groups").array();
    verdict.groups().forEach(group -> write(out, group));
    out.end().key("now").array();
    verdict.now().forEach(group -> write(out, group));
    Verdict.Next next = verdict.next();
    out.end().with("fit", verdict.fit()).key("next").object();
    out.with("what", next.what()).with("minutes", next.minutes());
    next.setUp().ifPresent(setUp -> out.with("set_up", setUp));
    out.end()
        .with("remarks", verdict.remarks())
        .with("not_seen", verdict.notSeen())
        .with("rule", verdict.rule())
        .with("program", event.program());
  }

  private static void write(JsonOut out, Verdict.Group group) {
    out.object()
        .with("regions", group.regions().stream().map(Words::of).toList())
        .with("components", group.components().stream().map(Names::of).toList())
        .with("positions", group.positions())
        .with("sureness", group.sureness())
        .with("because", group.because())
        .end();
  }

  static Event.Judged read(Field body) {
    Field next = body.at("next");
    Verdict verdict =
        new Verdict(
            body.at("headline").text(),
            body.at("groups").each(VerdictText::group),
            body.at("now").each(VerdictText::group),
            body.at("fit").word(Verdict.Fit.class),
            new Verdict.Next(
                next.at("what").text(),
                next.at("minutes").count(Integer.MIN_VALUE),
                next.at("set_up").maybe(Field::text)),
            body.at("remarks").each(Field::text),
            body.at("not_seen").each(Field::text),
            body.at("rule").text());
    return new Event.Judged(verdict, body.at("program").text());
  }

  private static Verdict.Group group(Field field) {
    return new Verdict.Group(
        field.at("regions").each(region -> region.word(Region.class)),
        FindingsText.components(field.at("components")),
        field.at("positions").each(Field::text),
        field.at("sureness").word(Verdict.Sureness.class),
        field.at("because").text());
  }
}
