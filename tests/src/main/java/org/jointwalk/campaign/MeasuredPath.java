package org.jointwalk.campaign;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Scan;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Question.Need;
import org.jointwalk.joblog.MemoryJobLog;
import org.jointwalk.pass.Operator;
import org.jointwalk.pass.Pass;
import org.jointwalk.pass.PassException;
import org.jointwalk.pass.Request;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.simulator.ContactLaw;
import org.jointwalk.simulator.Pace;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.jointwalk.trial.SmallMap;

/**
 * One path measured by a whole pass over a ring of six pads, in a fixture that was built for this
 * one measurement: its switches, scales, zeros and probes are all drawn anew.
 *
 * @param truth resistance of the path behind the pad, in ohm
 * @param findings of the pass
 */
record MeasuredPath(double truth, Findings findings) {

  /** The pad that is looked at. */
  static final String PAD = "V1";

  /** Limit of its net, in ohm. */
  static final double LIMIT = 2;

  private static final String JOB = "J-0001";

  private static final PadMap MAP =
      new SmallMap()
          .net("GROUND", Role.GROUND)
          .net("DATA", Role.SIGNAL)
          .pad("G1", "GROUND")
          .pad("G2", "GROUND")
          .pad("G3", "GROUND")
          .pad(PAD, "DATA")
          .pad("V2", "DATA")
          .pad("V3", "DATA")
          .limits(LIMIT, 0.5)
          .map();

  /**
   * Where a path is measured.
   *
   * @param capabilities of the kind of fixture
   * @param setUp what is clamped
   * @param law of the probes
   */
  record Place(Capabilities capabilities, SetUp setUp, ContactLaw law) {

    /** The component of the pad's path that the condition is put on. */
    Component subject() {
      if (setUp.bare()) {
        return new Component.Via(PAD);
      }
      return setUp.interposer()
          ? new Component.Joint(Side.LOWER, PAD)
          : new Component.Pad(Side.LOWER, PAD);
    }

    private List<Action> actions() {
      return setUp.bare()
          ? List.of(new Action.Split(Side.UPPER), new Action.Lift())
          : setUp.interposer()
              ? List.of(new Action.Split(Side.UPPER))
              : List.of(new Action.Split(Side.LOWER));
    }
  }

  /**
   * Measures, and seats again as often as the pass asks.
   *
   * @param seed of the fixture and of the stack
   * @param condition of the path
   */
  static MeasuredPath of(Place place, long seed, Condition condition) {
    return of(place, seed, condition, true);
  }

  /** Measures in one seating, so that the value is one estimate and not the best of several. */
  static MeasuredPath once(Place place, long seed, Condition condition) {
    return of(place, seed, condition, false);
  }

  private static MeasuredPath of(Place place, long seed, Condition condition, boolean seatsAgain) {
    Capabilities kind = place.capabilities();
    Capabilities own =
        new Capabilities(
            "drawn " + seed,
            kind.build(),
            kind.calibration(),
            kind.switching(),
            kind.kelvin(),
            kind.banks(),
            kind.readers(),
            kind.ranges(),
            kind.path(),
            kind.probes(),
            kind.ratings());
    FixtureMap wired = FixtureMaps.wired("drawn", MAP, own);
    Specimen specimen =
        new Specimen(
            "plain", seed, Defects.NONE.with(place.subject(), condition), List.of(), List.of());
    VirtualFixture fixture =
        new VirtualFixture(
            MAP, specimen, wired, new VirtualFixture.Conditions(place.law(), 0, 0, Pace.FREE, 0));
    fixture.clamp(place.setUp(), place.actions());
    Assembly assembly = new Assembly(MAP, MAP.interposers().get(0), place.setUp());
    Bench bench = new Bench(fixture, seatsAgain);
    try (MemoryJobLog log = new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC)) {
      List<Event> events = new ArrayList<>();
      events.add(new Event.Opened(new Intake(MAP.device(), "", "", List.of(), ""), ""));
      place.actions().forEach(action -> events.add(new Event.Done(action, "")));
      log.append(JOB, 0, events);
      Request request =
          new Request(
              JOB, assembly, wired.contacts(), Purpose.DIAGNOSIS, "", "", "", "campaign", false);
      Findings findings = new Pass(bench, log, bench, request).run().findings();
      return new MeasuredPath(truth(fixture, place.setUp()), findings);
    } catch (FixtureException | PassException e) {
      throw new IllegalStateException("a pass over six pads did not end: seed " + seed, e);
    }
  }

  /** What three perfect readings say, or one from plate to plate. */
  private static double truth(VirtualFixture fixture, SetUp setUp) {
    var truth = fixture.truth();
    if (setUp.bare()) {
      return truth.ohms(new Contact.Pad(Plate.OVER, PAD), new Contact.Pad(Plate.UNDER, PAD));
    }
    Contact one = new Contact.Pad(Plate.OVER, PAD);
    Contact two = new Contact.Pad(Plate.OVER, "V2");
    Contact three = new Contact.Pad(Plate.OVER, "V3");
    return (truth.ohms(one, two) + truth.ohms(one, three) - truth.ohms(two, three)) / 2;
  }

  /** Somebody who seats again as often as he is asked, or never. */
  private record Bench(VirtualFixture fixture, boolean seatsAgain) implements Fixture, Operator {

    @Override
    public Capabilities capabilities() {
      return fixture.capabilities();
    }

    @Override
    public Clamping clamping() {
      return fixture.clamping();
    }

    @Override
    public void run(Scan scan, Keep keep) throws FixtureException {
      fixture.run(scan, keep);
    }

    @Override
    public void stop() {
      fixture.stop();
    }

    @Override
    public boolean reseat(List<String> positions) {
      if (seatsAgain) {
        fixture.reseat();
      }
      return seatsAgain;
    }

    @Override
    public void progress(Need need, int taken, int of) {
      // Nobody watches.
    }

    @Override
    public void remark(String text) {
      // What a remark says is also in the findings.
    }
  }

  /** Every other pad of the ring; all of them are sound. */
  static Set<String> others() {
    return Set.of("G1", "G2", "G3", "V2", "V3");
  }
}
