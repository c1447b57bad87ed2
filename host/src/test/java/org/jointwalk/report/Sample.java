package org.jointwalk.report;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
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
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Event;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Job;
import org.jointwalk.job.Logged;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Region;
import org.jointwalk.job.Seating;
import org.jointwalk.job.Verdict;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Limits;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;

/** A split handset with fifteen open lower joints, one high one and one bridge among 24 pads. */
final class Sample {

  private static final Capabilities FIXTURE =
      new Capabilities(
          "test fixture",
          "test",
          "test",
          Switching.MULTIPLEXER,
          Kelvin.NONE,
          1,
          1,
          Map.of(),
          new Path(new Ohms(1), new Ohms(1), new Ohms(0.01), new Amps(0), 0.001, 0.001),
          new ProbeQuality(new Ohms(0.02), new Ohms(0.01)),
          new Ratings(new Volts(5), 0, 1));

  private Sample() {}

  static String id(int i) {
    return String.format(Locale.ROOT, "N%02d", i);
  }

  static PadMap map() {
    Map<String, Position> positions = new LinkedHashMap<>();
    Map<NetId, Net> nets = new LinkedHashMap<>();
    for (int i = 1; i <= 24; i++) {
      positions.put(id(i), new Position(id(i), i, 0, "S" + i, "S" + i));
      for (Side side : Side.values()) {
        NetId net = new NetId(side, "S" + i);
        nets.put(net, new Net(net, Role.SIGNAL, "radio", Optional.empty(), true, new Ohms(0.01)));
      }
    }
    return new PadMap(
        "Saltmarsh S2",
        "test",
        Map.of(Side.UPPER, "radio board", Side.LOWER, "main board"),
        List.of(new Interposer("thin", 0.4, false, new Ohms(0.001), List.of())),
        positions,
        nets,
        List.of(),
        Map.of(),
        new Limits(new Ohms(2), new Ohms(0.5), Map.of()),
        List.of());
  }

  static List<String> open() {
    List<String> open = new ArrayList<>();
    for (int i = 1; i <= 15; i++) {
      open.add(id(i));
    }
    return open;
  }

  static Findings findings() {
    List<Finding> findings = new ArrayList<>();
    for (int i = 1; i <= 24; i++) {
      findings.add(finding(i));
    }
    BridgeFinding bridge = new BridgeFinding("N17", "N18", Estimate.known(0.03, 0.002));
    return new Findings(findings, List.of(bridge), List.of(), "test");
  }

  private static Finding finding(int i) {
    Grade grade =
        i <= 15
            ? Grade.OPEN
            : i == 16 ? Grade.HIGH : i <= 18 ? Grade.BRIDGED : i == 19 ? Grade.MASKED : Grade.GOOD;
    boolean read = grade == Grade.HIGH || grade == Grade.GOOD;
    return new Finding(
        id(i),
        grade,
        read ? Optional.of(Estimate.known(i == 16 ? 4.5 : 0.02, 0.09)) : Optional.empty(),
        read ? Optional.of(new Ohms(0.3)) : Optional.empty(),
        2,
        i != 15,
        i == 20 ? Optional.of(new Ohms(2.6)) : Optional.empty(),
        List.of(),
        "reading, limit and rule");
  }

  static Verdict verdict() {
    List<Component> joints = new ArrayList<>();
    open().forEach(id -> joints.add(new Component.Joint(Side.LOWER, id)));
    Verdict.Group group =
        new Verdict.Group(
            List.of(Region.LOWER_JOINTS),
            joints,
            open(),
            Verdict.Sureness.PROBABLY,
            "By exclusion: the pads are good.");
    return verdict(List.of(group), List.of(group));
  }

  static Verdict verdict(List<Verdict.Group> groups, List<Verdict.Group> now) {
    return new Verdict(
        "LOWER JOINTS AT 15 PADS (PROBABLY)",
        groups,
        now,
        Verdict.Fit.FITS,
        new Verdict.Next("Re-ball the lower side.", 40, Optional.of("interposer-on-lower")),
        List.of("Radio runs through N01."),
        List.of("1 pad is seen only as a set.", "Connected means connected under clamp pressure."),
        "test");
  }

  static List<Event> events(String by) {
    Contact over = new Contact.Pad(Plate.OVER, "N01");
    Contact under = new Contact.Pad(Plate.UNDER, "N01");
    Step step =
        new Step(Kind.NORMAL_LEVEL, List.of(over), List.of(under), List.of(), new Volts(0.05), 1);
    Reading reading = new Reading.OverRange(0, List.of());
    Reading another = new Reading.OverRange(1, List.of());
    return new ArrayList<>(
        List.of(
            new Event.Opened(
                new Intake("Saltmarsh S2", "0042", "dropped", List.of("radio"), ""), by),
            new Event.Done(new Action.Split(Side.UPPER), by),
            new Event.PassBegun(
                1, "interposer-on-lower", Purpose.DIAGNOSIS, "thin", "m", "f", FIXTURE, by),
            new Event.Seated(1, new Seating(1, new Clamping(7, 1))),
            new Event.Seated(1, new Seating(2, new Clamping(7, 2))),
            new Event.ScanPlanned(1, 2, 1, Scan.of("interposer-on-lower", List.of(step, step))),
            new Event.BatchKept(1, 1, new Batch(List.of(reading), 3, 0.25)),
            new Event.BatchKept(1, 1, new Batch(List.of(another), 4, 0.5)),
            new Event.PassGraded(1, findings(), "test")));
  }

  static Job job() {
    return job(events("KM"));
  }

  static Job job(List<Event> events) {
    List<Logged> log = new ArrayList<>();
    for (Event event : events) {
      log.add(
          new Logged(
              log.size() + 1L,
              Instant.parse("2026-03-02T09:00:00Z").plusMillis(1500L * log.size()),
              ZoneId.of("Europe/Vienna"),
              event));
    }
    return Job.fold("J-0001", log);
  }
}
