package org.jointwalk.files;

import java.util.List;
import java.util.Optional;
import java.util.function.BinaryOperator;
import java.util.function.Function;
import org.jointwalk.fixture.Zero;
import org.jointwalk.job.Event;
import org.jointwalk.job.FixtureEvent;
import org.jointwalk.job.FixtureTask;

/**
 * The bodies of the entries of a fixture's stream. A zero is kept by content like a scan, so that a
 * pass can name the one that it used. As thread-safe as the two functions it is given.
 */
final class FixtureEventText {

  /** The kind under which the text of a zero is kept. */
  static final String ZERO = "zero";

  private final PlanText plans;
  private final BinaryOperator<String> keep;
  private final Function<String, Optional<String>> text;

  FixtureEventText(
      PlanText plans, BinaryOperator<String> keep, Function<String, Optional<String>> text) {
    this.plans = plans;
    this.keep = keep;
    this.text = text;
  }

  List<EventText.Format<?>> formats() {
    return List.of(
        new EventText.Format<>(Event.ZeroUsed.class, "zero-used", 1, this::used, this::used),
        new EventText.Format<>(
            FixtureEvent.Begun.class,
            "fixture-begun",
            1,
            FixtureEventText::begun,
            FixtureEventText::begun),
        new EventText.Format<>(
            FixtureEvent.Clamped.class,
            "fixture-clamped",
            1,
            FixtureEventText::clamped,
            FixtureEventText::clamped),
        new EventText.Format<>(
            FixtureEvent.Planned.class, "fixture-planned", 1, this::planned, this::planned),
        new EventText.Format<>(
            FixtureEvent.Kept.class,
            "fixture-kept",
            1,
            FixtureEventText::kept,
            FixtureEventText::kept),
        new EventText.Format<>(
            FixtureEvent.Zeroed.class, "fixture-zeroed", 1, this::zeroed, this::zeroed),
        new EventText.Format<>(
            FixtureEvent.Checked.class,
            "fixture-checked",
            1,
            FixtureEventText::checked,
            FixtureEventText::checked),
        new EventText.Format<>(
            FixtureEvent.Studied.class,
            "fixture-studied",
            1,
            FixtureEventText::studied,
            FixtureEventText::studied));
  }

  private static void begun(JsonOut out, FixtureEvent.Begun event) {
    out.with("run", event.run())
        .with("task", event.task())
        .with("fixture_map", event.fixtureMap())
        .key("capabilities");
    CapabilitiesText.write(out, event.capabilities());
    out.with("by", event.by());
  }

  private static FixtureEvent.Begun begun(Field body) {
    return new FixtureEvent.Begun(
        run(body),
        body.at("task").word(FixtureTask.class),
        body.at("fixture_map").text(),
        CapabilitiesText.read(body.at("capabilities")),
        body.at("by").text());
  }

  private static void clamped(JsonOut out, FixtureEvent.Clamped event) {
    out.with("run", event.run());
    SeatingText.write(out, event.seating());
  }

  private static FixtureEvent.Clamped clamped(Field body) {
    return new FixtureEvent.Clamped(run(body), SeatingText.read(body));
  }

  private void planned(JsonOut out, FixtureEvent.Planned event) {
    out.with("run", event.run());
    plans.write(out, event.seating(), event.scan(), event.plan());
  }

  private FixtureEvent.Planned planned(Field body) {
    return new FixtureEvent.Planned(
        run(body), PlanText.seating(body), PlanText.scan(body), plans.plan(body));
  }

  private static void kept(JsonOut out, FixtureEvent.Kept event) {
    out.with("run", event.run()).with("scan", event.scan());
    BatchText.write(out, event.batch());
  }

  private static FixtureEvent.Kept kept(Field body) {
    return new FixtureEvent.Kept(
        run(body), body.at("scan").count(Integer.MIN_VALUE), BatchText.batch(body));
  }

  private void zeroed(JsonOut out, FixtureEvent.Zeroed event) {
    out.with("run", event.run())
        .with("zero", keep.apply(ZERO, ZeroText.write(event.zero())))
        .with("program", event.program());
  }

  private FixtureEvent.Zeroed zeroed(Field body) {
    return new FixtureEvent.Zeroed(run(body), zero(body), body.at("program").text());
  }

  private void used(JsonOut out, Event.ZeroUsed event) {
    out.with("pass", event.pass()).with("zero", keep.apply(ZERO, ZeroText.write(event.zero())));
  }

  private Event.ZeroUsed used(Field body) {
    return new Event.ZeroUsed(body.at("pass").count(Integer.MIN_VALUE), zero(body));
  }

  private Zero zero(Field body) {
    return Bodies.read(
        text(body.at("zero")),
        ZeroText::read,
        reason -> new UnreadableEventException(ZERO, 1, reason));
  }

  private static void checked(JsonOut out, FixtureEvent.Checked event) {
    out.with("run", event.run()).with("program", event.program());
    SelfcheckText.write(out, event.check());
  }

  private static FixtureEvent.Checked checked(Field body) {
    return new FixtureEvent.Checked(run(body), SelfcheckText.read(body), body.at("program").text());
  }

  private static void studied(JsonOut out, FixtureEvent.Studied event) {
    out.with("run", event.run()).with("program", event.program());
    GaugeText.write(out, event.gauge());
  }

  private static FixtureEvent.Studied studied(Field body) {
    return new FixtureEvent.Studied(run(body), GaugeText.read(body), body.at("program").text());
  }

  private String text(Field hash) {
    return text.apply(hash.text())
        .orElseThrow(
            () -> new IllegalArgumentException("the text " + hash.shown() + " is not in the log"));
  }

  private static int run(Field body) {
    return body.at("run").count(Integer.MIN_VALUE);
  }
}
