package org.jointwalk.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.BinaryOperator;
import java.util.function.Function;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Zero;
import org.jointwalk.job.Event;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Seen;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.stack.Side;

/**
 * The bodies of log entries: JSON texts that give back an equal event, doubles to the last bit. A
 * scan is large and may be run again, so its text is kept by content and the entry holds its hash.
 *
 * <p>Each kind of event has its own version number. A kind is read in every version that was ever
 * written; a change of a body is a new version. As thread-safe as the two functions it is given.
 */
public final class EventText {

  /** The kind under which the text of a scan is kept. */
  public static final String SCAN = "scan";

  private final List<Format<?>> formats;
  private final PlanText plans;

  /**
   * @param keep keeps a text of a kind and returns its hash, as {@code JobLog.keep} does
   * @param text the text that was kept under a hash, as {@code JobLog.text} does
   */
  public EventText(BinaryOperator<String> keep, Function<String, Optional<String>> text) {
    plans = new PlanText(keep, text);
    List<Format<?>> all =
        new ArrayList<>(
            List.of(
                new Format<>(Event.Opened.class, "opened", 1, EventText::opened, EventText::opened),
                new Format<>(Event.Done.class, "done", 1, EventText::done, EventText::done),
                new Format<>(Event.Looked.class, "looked", 1, EventText::looked, EventText::looked),
                new Format<>(
                    Event.Clamped.class, "clamped", 1, EventText::clamped, EventText::clamped),
                new Format<>(Event.Noted.class, "noted", 1, EventText::noted, EventText::noted),
                new Format<>(
                    Event.PassBegun.class, "pass-begun", 1, EventText::begun, EventText::begun),
                new Format<>(Event.Seated.class, "seated", 1, EventText::seated, EventText::seated),
                new Format<>(
                    Event.ScanPlanned.class, "scan-planned", 1, this::planned, this::planned),
                new Format<>(
                    Event.BatchKept.class, "batch-kept", 1, BatchText::write, BatchText::read),
                new Format<>(
                    Event.PassGraded.class,
                    "pass-graded",
                    1,
                    FindingsText::write,
                    FindingsText::read),
                new Format<>(
                    Event.Judged.class, "judged", 1, VerdictText::write, VerdictText::read),
                new Format<>(
                    Event.Closed.class, "closed", 1, EventText::closed, EventText::closed)));
    all.addAll(new FixtureEventText(plans, keep, text).formats());
    all.addAll(new WatchEventText(plans).formats());
    this.formats = List.copyOf(all);
  }

  /** The word for an event's kind, such as {@code pass-begun}. */
  public String kind(Event event) {
    return formatOf(event).kind;
  }

  /** The version in which {@link #write} writes an event of this kind. */
  public int version(Event event) {
    return formatOf(event).version;
  }

  /** The body of an event, without line breaks. Keeps the scan of a planned scan first. */
  public String write(Event event) {
    JsonOut out = JsonOut.compact().object();
    formatOf(event).write(out, event);
    return out.end().toString();
  }

  /**
   * The event that a body tells.
   *
   * @param kind from {@link #kind}
   * @param version from {@link #version}
   * @param body from {@link #write}
   * @throws UnreadableEventException when kind or version is not known, the body is damaged, or the
   *     scan that it refers to is not kept
   */
  public Event read(String kind, int version, String body) {
    Format<?> format =
        formats.stream()
            .filter(f -> f.kind.equals(kind))
            .findFirst()
            .orElseThrow(
                () ->
                    new UnreadableEventException(
                        kind,
                        version,
                        "this program does not know the kind; read the log with a newer one"));
    if (version < 1 || version > format.version) {
      throw new UnreadableEventException(
          kind,
          version,
          "this program knows versions 1 to " + format.version + "; read the log with a newer one");
    }
    return Bodies.read(
        body, format.read, reason -> new UnreadableEventException(kind, version, reason));
  }

  /** A zero as it is kept by content. */
  public static String writeZero(Zero zero) {
    return ZeroText.write(zero);
  }

  /** A scan as it is kept by content; about 10 bytes a step between two contacts. */
  public static String writeScan(Scan scan) {
    return ScanText.write(scan);
  }

  /**
   * The scan that a text from {@link #writeScan} tells.
   *
   * @throws UnreadableEventException when the text is damaged
   */
  public static Scan readScan(String text) {
    return Bodies.read(
        text, ScanText::read, reason -> new UnreadableEventException(SCAN, 1, reason));
  }

  private Format<?> formatOf(Event event) {
    return formats.stream()
        .filter(f -> f.type.isInstance(event))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no text for " + event.getClass()));
  }

  private static void opened(JsonOut out, Event.Opened event) {
    Intake intake = event.intake();
    out.with("device", intake.device())
        .with("serial", intake.serial())
        .with("happened", intake.happened())
        .with("fails", intake.fails())
        .with("note", intake.note())
        .with("by", event.by());
  }

  private static Event.Opened opened(Field body) {
    return new Event.Opened(
        new Intake(
            body.at("device").text(),
            body.at("serial").text(),
            body.at("happened").text(),
            body.at("fails").each(Field::text),
            body.at("note").text()),
        by(body));
  }

  private static void done(JsonOut out, Event.Done event) {
    ActionText.write(out, event.action());
    out.with("by", event.by());
  }

  private static Event.Done done(Field body) {
    return new Event.Done(ActionText.read(body), by(body));
  }

  private static void looked(JsonOut out, Event.Looked event) {
    out.with("side", event.seen().side())
        .with("position", event.seen().position())
        .with("look", event.seen().look())
        .with("by", event.by());
  }

  private static Event.Looked looked(Field body) {
    return new Event.Looked(
        new Seen(
            body.at("side").word(Side.class),
            body.at("position").text(),
            body.at("look").word(Seen.Look.class)),
        by(body));
  }

  private static void clamped(JsonOut out, Event.Clamped event) {
    out.with("works", event.works()).with("by", event.by());
  }

  private static Event.Clamped clamped(Field body) {
    return new Event.Clamped(body.at("works").word(WorksClamped.class), by(body));
  }

  private static void noted(JsonOut out, Event.Noted event) {
    out.with("text", event.text()).with("by", event.by());
  }

  private static Event.Noted noted(Field body) {
    return new Event.Noted(body.at("text").text(), by(body));
  }

  private static void begun(JsonOut out, Event.PassBegun event) {
    out.with("pass", event.pass())
        .with("set_up", event.setUp())
        .with("purpose", event.purpose())
        .with("variant", event.variant())
        .with("pad_map", event.padMap())
        .with("fixture_map", event.fixtureMap())
        .key("capabilities");
    CapabilitiesText.write(out, event.capabilities());
    out.with("by", event.by());
  }

  private static Event.PassBegun begun(Field body) {
    return new Event.PassBegun(
        body.at("pass").count(Integer.MIN_VALUE),
        body.at("set_up").text(),
        body.at("purpose").word(Purpose.class),
        body.at("variant").text(),
        body.at("pad_map").text(),
        body.at("fixture_map").text(),
        CapabilitiesText.read(body.at("capabilities")),
        by(body));
  }

  private static void seated(JsonOut out, Event.Seated event) {
    out.with("pass", event.pass());
    SeatingText.write(out, event.seating());
  }

  private static Event.Seated seated(Field body) {
    return new Event.Seated(body.at("pass").count(Integer.MIN_VALUE), SeatingText.read(body));
  }

  private void planned(JsonOut out, Event.ScanPlanned event) {
    out.with("pass", event.pass());
    plans.write(out, event.seating(), event.scan(), event.plan());
  }

  private Event.ScanPlanned planned(Field body) {
    return new Event.ScanPlanned(
        body.at("pass").count(Integer.MIN_VALUE),
        PlanText.seating(body),
        PlanText.scan(body),
        plans.plan(body));
  }

  private static void closed(JsonOut out, Event.Closed event) {
    out.with("by", event.by());
  }

  private static Event.Closed closed(Field body) {
    return new Event.Closed(by(body));
  }

  private static String by(Field body) {
    return body.at("by").text();
  }

  /** How one kind of event is written now and read in each of its versions. */
  record Format<E extends Event>(
      Class<E> type,
      String kind,
      int version,
      BiConsumer<JsonOut, E> write,
      Function<Field, E> read) {

    private void write(JsonOut out, Event event) {
      write.accept(out, type.cast(event));
    }
  }
}
