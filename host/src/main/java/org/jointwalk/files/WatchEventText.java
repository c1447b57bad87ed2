package org.jointwalk.files;

import java.util.List;
import org.jointwalk.job.WatchEvent;
import org.jointwalk.job.Watched;

/**
 * The bodies of the entries that a watch makes in a job. Each holds {@code watch}, the number of
 * the watch; times are in seconds, resistances in ohm. As thread-safe as what keeps its plans.
 */
final class WatchEventText {

  private final PlanText plans;

  WatchEventText(PlanText plans) {
    this.plans = plans;
  }

  List<EventText.Format<?>> formats() {
    return List.of(
        new EventText.Format<>(
            WatchEvent.Begun.class, "watch-begun", 1, WatchEventText::begun, WatchEventText::begun),
        new EventText.Format<>(
            WatchEvent.Seated.class,
            "watch-seated",
            1,
            WatchEventText::seated,
            WatchEventText::seated),
        new EventText.Format<>(
            WatchEvent.Planned.class, "watch-planned", 1, this::planned, this::planned),
        new EventText.Format<>(
            WatchEvent.Kept.class, "watch-kept", 1, WatchEventText::kept, WatchEventText::kept),
        new EventText.Format<>(
            WatchEvent.Looking.class,
            "watch-looking",
            1,
            WatchEventText::looking,
            WatchEventText::looking),
        new EventText.Format<>(
            WatchEvent.Changed.class,
            "watch-changed",
            1,
            WatchEventText::changed,
            WatchEventText::changed),
        new EventText.Format<>(
            WatchEvent.Noted.class, "watch-noted", 1, WatchEventText::noted, WatchEventText::noted),
        new EventText.Format<>(
            WatchEvent.Ended.class,
            "watch-ended",
            1,
            WatchEventText::ended,
            WatchEventText::ended));
  }

  private static void begun(JsonOut out, WatchEvent.Begun event) {
    out.with("watch", event.watch())
        .with("set_up", event.setUp())
        .with("variant", event.variant())
        .with("pad_map", event.padMap())
        .with("fixture_map", event.fixtureMap())
        .key("capabilities");
    CapabilitiesText.write(out, event.capabilities());
    out.with("by", event.by());
  }

  private static WatchEvent.Begun begun(Field body) {
    return new WatchEvent.Begun(
        watch(body),
        body.at("set_up").text(),
        body.at("variant").text(),
        body.at("pad_map").text(),
        body.at("fixture_map").text(),
        CapabilitiesText.read(body.at("capabilities")),
        body.at("by").text());
  }

  private static void seated(JsonOut out, WatchEvent.Seated event) {
    out.with("watch", event.watch());
    SeatingText.write(out, event.seating());
  }

  private static WatchEvent.Seated seated(Field body) {
    return new WatchEvent.Seated(watch(body), SeatingText.read(body));
  }

  private void planned(JsonOut out, WatchEvent.Planned event) {
    out.with("watch", event.watch());
    plans.write(out, event.seating(), event.scan(), event.plan());
  }

  private WatchEvent.Planned planned(Field body) {
    return new WatchEvent.Planned(
        watch(body), PlanText.seating(body), PlanText.scan(body), plans.plan(body));
  }

  private static void kept(JsonOut out, WatchEvent.Kept event) {
    out.with("watch", event.watch()).with("scan", event.scan());
    BatchText.write(out, event.batch());
  }

  private static WatchEvent.Kept kept(Field body) {
    return new WatchEvent.Kept(
        watch(body), body.at("scan").count(Integer.MIN_VALUE), BatchText.batch(body));
  }

  private static void looking(JsonOut out, WatchEvent.Looking event) {
    out.with("watch", event.watch())
        .with("at_s", event.atSeconds())
        .with("above_ohms", event.aboveOhms())
        .with("unseen", event.unseen())
        .key("looks")
        .array();
    for (WatchEvent.Look look : event.looks()) {
      out.object().with("position", look.position()).with("against", look.against()).end();
    }
    out.end();
  }

  private static WatchEvent.Looking looking(Field body) {
    return new WatchEvent.Looking(
        watch(body),
        body.at("at_s").anyNumber(),
        body.at("looks")
            .each(l -> new WatchEvent.Look(l.at("position").text(), l.at("against").text())),
        body.at("above_ohms").anyNumber(),
        body.at("unseen").each(Field::text));
  }

  private static void changed(JsonOut out, WatchEvent.Changed event) {
    out.with("watch", event.watch())
        .with("at_s", event.atSeconds())
        .with("looks", event.looks())
        .key("edges")
        .array();
    for (WatchEvent.Edge edge : event.edges()) {
      out.object()
          .with("position", edge.position())
          .with("out", edge.out())
          .with("at_s", edge.atSeconds())
          .end();
    }
    out.end();
  }

  private static WatchEvent.Changed changed(Field body) {
    return new WatchEvent.Changed(
        watch(body),
        body.at("at_s").anyNumber(),
        body.at("looks").whole(Long.MIN_VALUE),
        body.at("edges")
            .each(
                e ->
                    new WatchEvent.Edge(
                        e.at("position").text(), e.at("out").flag(), e.at("at_s").anyNumber())));
  }

  private static void noted(JsonOut out, WatchEvent.Noted event) {
    out.with("watch", event.watch()).with("at_s", event.atSeconds()).with("text", event.text());
  }

  private static WatchEvent.Noted noted(Field body) {
    return new WatchEvent.Noted(watch(body), body.at("at_s").anyNumber(), body.at("text").text());
  }

  private static void ended(JsonOut out, WatchEvent.Ended event) {
    Watched watched = event.watched();
    out.with("watch", event.watch())
        .with("seconds", watched.seconds())
        .with("looks", watched.looks())
        .with("certain_s", watched.certainSeconds())
        .key("joints")
        .array();
    for (Watched.Joint joint : watched.joints()) {
      out.object().with("position", joint.position()).with("dropouts", joint.dropouts());
      joint.firstSeconds().ifPresent(first -> out.with("first_s", first.doubleValue()));
      out.with("longest_s", joint.longestSeconds()).with("out_at_end", joint.outAtEnd()).end();
    }
    out.end().with("program", event.program());
  }

  private static WatchEvent.Ended ended(Field body) {
    return new WatchEvent.Ended(
        watch(body),
        new Watched(
            body.at("seconds").anyNumber(),
            body.at("looks").whole(Long.MIN_VALUE),
            body.at("certain_s").anyNumber(),
            body.at("joints").each(WatchEventText::joint)),
        body.at("program").text());
  }

  private static Watched.Joint joint(Field field) {
    return new Watched.Joint(
        field.at("position").text(),
        field.at("dropouts").count(Integer.MIN_VALUE),
        field.at("first_s").maybe(Field::anyNumber),
        field.at("longest_s").anyNumber(),
        field.at("out_at_end").flag());
  }

  private static int watch(Field body) {
    return body.at("watch").count(Integer.MIN_VALUE);
  }
}
