package org.jointwalk.joblog;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Path;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Ratings;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Selfcheck;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.fixture.Zero;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.FixtureEvent;
import org.jointwalk.job.FixtureTask;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Region;
import org.jointwalk.job.Seating;
import org.jointwalk.job.Seen;
import org.jointwalk.job.Verdict;
import org.jointwalk.job.WatchEvent;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Contribution;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Side;

/** Invented entries of an invented job. */
final class Events {

  static final Event OPENED =
      new Event.Opened(
          new Intake(
              "Saltmarsh S2", "SM-00417", "dropped", List.of("radio"), "from the north hide"),
          "AB");

  static final Scan SCAN =
      Scan.of(
          "interposer-on-lower",
          List.of(
              new Step(Kind.ALL_OPEN, List.of(), List.of(), List.of(), new Volts(0.02), 1),
              new Step(
                  Kind.LOW_LEVEL,
                  List.of(new Contact.Pad(Plate.OVER, "N001")),
                  List.of(new Contact.Pad(Plate.OVER, "N002")),
                  List.of(new Amps(0.04)),
                  new Volts(0.02),
                  4)));

  static final List<Event> EVERY_KIND =
      List.of(
          OPENED,
          new Event.Clamped(WorksClamped.SOMETIMES, "AB"),
          new Event.Looked(new Seen(Side.LOWER, "N014", Seen.Look.BALL_LOW), "AB"),
          new Event.Done(new Action.Split(Side.UPPER), "AB"),
          noted("corner N001 was loose"),
          new Event.PassBegun(
              1,
              "interposer-on-lower",
              Purpose.REBALL,
              "thin",
              "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
              "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
              capabilities(),
              "CD"),
          new Event.Seated(1, new Seating(1, new Clamping(0xF00DL, 3))),
          new Event.ScanPlanned(1, 1, 1, SCAN),
          batch(1, 0, 2),
          new Event.PassGraded(1, findings(), "0.1.0"),
          new Event.Judged(verdict(), "0.1.0"),
          new WatchEvent.Begun(1, "interposer-on-lower", "thin", "00", "01", capabilities(), "AB"),
          new WatchEvent.Planned(1, 2, 1, SCAN),
          new WatchEvent.Changed(1, 4.5, 900, List.of(new WatchEvent.Edge("N014", true, 4.25))),
          new Event.Closed("AB"));

  /** Entries of an invented fixture. */
  static final List<Event> OF_A_FIXTURE =
      List.of(
          new FixtureEvent.Begun(1, FixtureTask.ZERO, "00", capabilities(), "AB"),
          new FixtureEvent.Clamped(1, new Seating(1, new Clamping(0xF00DL, 3))),
          new FixtureEvent.Planned(1, 1, 1, SCAN),
          new FixtureEvent.Kept(1, 1, ((Event.BatchKept) batch(1, 0, 2)).batch()),
          new FixtureEvent.Zeroed(1, zero(), "0.1.0"),
          new FixtureEvent.Checked(
              2,
              new Selfcheck(
                  "virtual 1",
                  "build 7",
                  "calibration 2",
                  List.of("empty"),
                  List.of(
                      new Selfcheck.Fault(
                          Selfcheck.What.HIGH_STUCK_OPEN,
                          Optional.of(12),
                          Optional.of(new Contact.Pad(Plate.OVER, "N013")),
                          "no path in 3 seatings")),
                  List.of(new Selfcheck.Figure("bus leakage", 1e-9, "A", Optional.of(1e-8))),
                  List.of("relays that never close")),
              "0.1.0"));

  private Events() {}

  static Zero zero() {
    Contact a = new Contact.Pad(Plate.OVER, "N001");
    Contact b = new Contact.Pad(Plate.OVER, "N002");
    return new Zero(
        "virtual 1",
        "build 7",
        "calibration 2",
        Instant.parse("2026-03-29T00:59:59.998Z"),
        Optional.of(21.5),
        Kind.LOW_LEVEL,
        3,
        Map.of(a, 0.21),
        Map.of(a, 0.19, b, 0.22),
        List.of(new Contribution("repeat", 0.004, 800)),
        Contribution.known("probes", 0.002),
        List.of());
  }

  static Event noted(String text) {
    return new Event.Noted(text, "AB");
  }

  /** A batch of readings whose values differ from one another. */
  static Event batch(int scan, int first, int size) {
    List<Reading> readings = new java.util.ArrayList<>();
    for (int i = first; i < first + size; i++) {
      readings.add(
          new Reading.Measured(i, List.of(new Reading.Point(1e-3 / (i + 3.0), 0.04 - i * 1e-7))));
    }
    return new Event.BatchKept(1, scan, new Batch(readings, 2L * size, 0.0123 * size));
  }

  private static Capabilities capabilities() {
    return new Capabilities(
        "virtual 1",
        "build 7",
        "calibration 2",
        Switching.MULTIPLEXER,
        Kelvin.TAIL,
        2,
        1,
        Map.of(
            Kind.LOW_LEVEL,
            new Range(
                new Amps(0.04),
                new Volts(0.02),
                1e-4,
                new Volts(2e-7),
                new Volts(1e-6),
                new Amps(1e-9),
                0.05)),
        new Path(new Ohms(0.2), new Ohms(0.25), new Ohms(0.01), new Amps(1e-9), 0.003, 0.002),
        new ProbeQuality(new Ohms(0.05), new Ohms(0.01)),
        new Ratings(new Volts(5), 10_000_000, 2));
  }

  private static Findings findings() {
    return new Findings(
        List.of(
            new Finding(
                "N001",
                Grade.HIGH,
                Optional.of(Estimate.known(1.25, 0.014)),
                Optional.of(new Ohms(0.15)),
                2,
                true,
                Optional.empty(),
                List.of(new Component.Joint(Side.LOWER, "N001")),
                "reads 1.25 ohm, limit 0.15 ohm")),
        List.of(),
        List.of(),
        "rule 1");
  }

  private static Verdict verdict() {
    return new Verdict(
        "LOWER JOINTS",
        List.of(
            new Verdict.Group(
                List.of(Region.LOWER_JOINTS),
                List.of(new Component.Joint(Side.LOWER, "N001")),
                List.of("N001"),
                Verdict.Sureness.LOCATED,
                "read high in two seatings")),
        List.of(),
        Verdict.Fit.FITS,
        new Verdict.Next("re-ball the lower side", 20, Optional.of("interposer-on-lower")),
        List.of(),
        List.of("N002 is seen only as a set"),
        "rule 1");
  }
}
