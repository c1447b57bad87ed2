package org.jointwalk.cli;

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
import org.jointwalk.fixture.Ratings;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Region;
import org.jointwalk.job.Seating;
import org.jointwalk.job.Seen;
import org.jointwalk.job.Verdict;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Side;

/** An invented job as its log has it. */
final class Recorded {

  /** Came in, was split, and one pass found a joint; another pass was begun. */
  static final List<Event> WITH_A_PASS =
      List.of(
          new Event.Opened(
              new Intake("Saltmarsh S2", "SM-00417", "dropped", List.of("radio"), ""), "AB"),
          new Event.Done(new Action.Split(Side.UPPER), "AB"),
          begun(1, "interposer-on-lower", Purpose.REBALL),
          new Event.Seated(1, new Seating(1, new Clamping(7, 1))),
          new Event.ScanPlanned(1, 1, 1, Scan.of("interposer-on-lower", List.of(step(), step()))),
          new Event.BatchKept(1, 1, new Batch(List.of(reading(0), reading(1)), 4, 0.1)),
          new Event.PassGraded(1, findings(), "0.1.0"),
          new Event.Judged(verdict(), "0.1.0"),
          new Event.Looked(new Seen(Side.LOWER, "N001", Seen.Look.BALL_LOW), "AB"),
          begun(2, "joined", Purpose.DIAGNOSIS));

  private Recorded() {}

  /** Was split, and a pass was begun with the pad map of this hash. */
  static List<Event> withMap(String hash) {
    return List.of(
        WITH_A_PASS.get(0),
        WITH_A_PASS.get(1),
        new Event.PassBegun(
            1,
            "interposer-on-lower",
            Purpose.REBALL,
            "standard",
            hash,
            "01",
            capabilities(),
            "CD"));
  }

  private static Event begun(int pass, String setUp, Purpose purpose) {
    return new Event.PassBegun(pass, setUp, purpose, "thin", "00", "01", capabilities(), "CD");
  }

  private static Step step() {
    return new Step(
        Kind.LOW_LEVEL,
        List.of(new Contact.Pad(Plate.OVER, "N001")),
        List.of(new Contact.Pad(Plate.OVER, "N002")),
        List.of(new Amps(0.04)),
        new Volts(0.02),
        1);
  }

  private static Reading reading(int index) {
    return new Reading.Measured(index, List.of(new Reading.Point(0.01, 0.008)));
  }

  private static Capabilities capabilities() {
    return new Capabilities(
        "virtual 1",
        "build 7",
        "calibration 2",
        Switching.MULTIPLEXER,
        Kelvin.TAIL,
        1,
        1,
        Map.of(),
        new Path(new Ohms(0.2), new Ohms(0.2), new Ohms(0.01), new Amps(1e-9), 0.003, 0.002),
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
                1,
                false,
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
                Verdict.Sureness.PROBABLY,
                "read high once")),
        List.of(),
        Verdict.Fit.FITS,
        new Verdict.Next("re-ball the lower side", 20, Optional.of("interposer-on-lower")),
        List.of(),
        List.of(),
        "rule 1");
  }
}
