package org.jointwalk.spice;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Path;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Ratings;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Intake;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Question.Need;
import org.jointwalk.joblog.MemoryJobLog;
import org.jointwalk.pass.Operator;
import org.jointwalk.pass.Outcome;
import org.jointwalk.pass.Pass;
import org.jointwalk.pass.PassException;
import org.jointwalk.pass.Request;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.Learn;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;

/** A job on a fixture that ngspice computes. */
final class Bench {

  static final String JOB = "J-0060";

  private static final int GOOD_STACKS = 8;
  private static final double ROOM_CELSIUS = 27;

  private final Ngspice ngspice;
  private final FixtureMap fixtureMap;
  private final JobLog log;
  private Attachment attachment = Attachment.BOTH;

  /** Opens a job in a log that has none. */
  Bench(Ngspice ngspice, FixtureMap fixtureMap, JobLog log) {
    this.ngspice = ngspice;
    this.fixtureMap = fixtureMap;
    this.log = log;
    Intake intake = new Intake(fixtureMap.device(), "", "dropped", List.of("radio"), "");
    append(new Event.Opened(intake, "ab"));
  }

  Bench(Ngspice ngspice, FixtureMap fixtureMap) {
    this(ngspice, fixtureMap, memory());
  }

  static JobLog memory() {
    return new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC);
  }

  /** What a job does before a set-up can be in the fixture. */
  static List<Action> before(SetUp setUp) {
    Side letGo = setUp.possible().contains(Attachment.UPPER) ? Side.LOWER : Side.UPPER;
    return setUp.possible().contains(Attachment.only(letGo.other()))
        ? List.of(new Action.Split(letGo))
        : List.of(new Action.Split(letGo), new Action.Lift());
  }

  /** A map with what good stacks of it read, through a fixture that adds nothing. */
  static PadMap learned(Ngspice ngspice, PadMap map) throws FixtureException {
    FixtureMap exact = exact(map);
    return Learn.learned(
        map,
        GOOD_STACKS,
        (stack, setUp) ->
            new SpiceFixture(
                ngspice, new Handset(map, Defects.NONE, stack.seed(), ROOM_CELSIUS), setUp, exact));
  }

  /** Two tips on every pad, no noise and no error. */
  static FixtureMap exact(PadMap map) {
    Map<Kind, Range> ranges = new EnumMap<>(Kind.class);
    for (Kind kind : List.of(Kind.ISOLATION, Kind.JUNCTION)) {
      Volts none = new Volts(0);
      ranges.put(kind, new Range(new Amps(1e-3), new Volts(1), 0, none, none, new Amps(0), 0.001));
    }
    Ohms none = new Ohms(0);
    Capabilities capabilities =
        new Capabilities(
            "exact",
            "39",
            "none",
            Switching.MULTIPLEXER,
            Kelvin.TIP,
            1,
            1,
            ranges,
            new Path(none, none, none, new Amps(0), 0, 0),
            new ProbeQuality(none, none),
            new Ratings(new Volts(6), 0, 1));
    return FixtureMaps.wired("exact", map, capabilities);
  }

  JobLog log() {
    return log;
  }

  /** Does something to the handset. */
  void done(Action action) {
    append(new Event.Done(action, "ab"));
    attachment = action.after(attachment);
  }

  private void append(Event event) {
    log.append(JOB, log.read(JOB).size(), List.of(event));
  }

  /** Does what was not done yet and clamps a handset for a pass. */
  Outcome pass(Handset handset, SetUp setUp) throws FixtureException, PassException {
    if (attachment == Attachment.BOTH) {
      before(setUp).forEach(this::done);
    }
    SpiceFixture fixture = new SpiceFixture(ngspice, handset, setUp, fixtureMap);
    return new Pass(
            fixture, log, operator(fixture::reseat), request(handset.map(), fixtureMap, setUp))
        .run();
  }

  /** Somebody who opens and closes the lid when asked, and has nothing to be told. */
  static Operator operator(Runnable reseat) {
    return new Operator() {
      @Override
      public boolean reseat(List<String> positions) {
        reseat.run();
        return true;
      }

      @Override
      public void progress(Need need, int taken, int of) {}

      @Override
      public void remark(String text) {
        throw new IllegalStateException("there is nothing to remark, but: " + text);
      }
    };
  }

  /** Asks for a diagnosis with the first variant of the interposer. */
  static Request request(PadMap map, FixtureMap fixtureMap, SetUp setUp) {
    return new Request(
        JOB,
        new Assembly(map, map.interposers().get(0), setUp),
        fixtureMap.contacts(),
        Purpose.DIAGNOSIS,
        "pads",
        "fixture",
        "ab",
        "test",
        false);
  }
}
