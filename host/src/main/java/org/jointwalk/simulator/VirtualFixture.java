package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.atomic.AtomicBoolean;
import org.jointwalk.files.Sha256;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Action;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;

/**
 * A fixture with a stack in it that exist in numbers only. What lies in it follows from the
 * specimen and the actions recorded so far; nothing else is remembered but the count of seatings.
 * The same specimen, maps, conditions, clampings and scans give the same readings to the last bit.
 *
 * <p>A pass of 2,500 steps over 420 positions takes well under a second on a warm machine. Used by
 * one thread at a time, except {@link #stop}.
 */
public final class VirtualFixture implements Fixture {

  private static final int BATCH = 32;

  private final PadMap map;
  private final Specimen specimen;
  private final FixtureMap fixture;
  private final Conditions conditions;
  private final Hardware hardware;
  private final AtomicBoolean running = new AtomicBoolean();
  private final AtomicBoolean stopping = new AtomicBoolean();
  private Optional<Pattern> pattern = Optional.empty();
  private Optional<Clamped> clamped = Optional.empty();
  private long lid;
  private int seatings;
  private double deviceSeconds;

  /**
   * Under what conditions a virtual fixture works.
   *
   * @param law of the probes' resistance
   * @param miss probability that a sound probe does not land in one seating
   * @param closing probability that clamping closes a crack that is open without pressure
   * @param pace how simulated time is spent
   * @param seatingsBefore seatings that the specimen has had, for a job that goes on
   */
  public record Conditions(
      ContactLaw law, double miss, double closing, Pace pace, int seatingsBefore) {

    /** Nothing by chance but the spread of the probes; no waiting. */
    public static final Conditions CALM = new Conditions(ContactLaw.LOGNORMAL, 0, 0, Pace.FREE, 0);

    public Conditions {
      if (!(miss >= 0 && miss <= 1) || !(closing >= 0 && closing <= 1) || seatingsBefore < 0) {
        throw new IllegalArgumentException(
            "probabilities lie from 0 to 1 and seatings are not negative, not "
                + miss
                + ", "
                + closing
                + ", "
                + seatingsBefore);
      }
    }

    /** The same for a specimen that has been clamped before. */
    public Conditions after(int seatings) {
      return new Conditions(law, miss, closing, pace, seatings);
    }
  }

  /** What is clamped and how it sits. */
  private static final class Clamped {

    private final Assembly assembly;
    private final Sound sound;
    private final Defects defects;
    private final Seat seat;
    private final Circuit circuit;
    private final Flicker flicker;
    private int runs;

    private Clamped(Assembly assembly, Sound sound, Defects defects, Seat seat, Circuit circuit) {
      this.assembly = assembly;
      this.sound = sound;
      this.defects = defects;
      this.seat = seat;
      this.circuit = circuit;
      this.flicker = new Flicker(circuit, seat.draw().at("flicker"));
    }
  }

  /**
   * @param map the model
   * @param specimen the stack and its troubles
   * @param fixture wiring and capabilities; its switches and scales are drawn from its identity
   * @param conditions chance and pace
   */
  public VirtualFixture(PadMap map, Specimen specimen, FixtureMap fixture, Conditions conditions) {
    this.map = map;
    this.specimen = specimen;
    this.fixture = fixture;
    this.conditions = conditions;
    hardware = new Hardware(fixture, specimen);
    seatings = conditions.seatingsBefore();
  }

  /**
   * Puts parts into the fixture and closes it: a new seating. If the specimen says that another
   * set-up is inside, that is what lies there, whatever the job recorded.
   *
   * @param setUp what the job says is clamped
   * @param actions all actions of the job so far, in order
   * @throws IllegalArgumentException when the set-up cannot exist after these actions
   */
  public void clamp(SetUp setUp, List<Action> actions) {
    if (!setUp.possible().contains(History.attachment(actions))) {
      throw new IllegalArgumentException(
          setUp.title() + " cannot be clamped while " + actions + " is all that was done");
    }
    Assembly assembly = new Assembly(map, variant(), inside().orElse(setUp));
    Draw room = new Draw(specimen.seed()).at("room").at(seatings + 1);
    Map<Side, Double> warmer =
        Map.of(
            Side.UPPER, room.at("upper").uniform(-5, 5),
            Side.LOWER, room.at("lower").uniform(-5, 5));
    seat(
        assembly,
        new Sound(new Draw(specimen.seed()), warmer),
        History.defects(specimen, List.copyOf(actions)));
  }

  /**
   * Opens and closes the lid over what is clamped: a new seating.
   *
   * @throws IllegalStateException when nothing was clamped
   */
  public void reseat() {
    Clamped now = clampedNow();
    seat(now.assembly, now.sound, now.defects);
  }

  private void seat(Assembly assembly, Sound sound, Defects defects) {
    lid++;
    seatings++;
    Seat seat =
        new Seat(
            seatings,
            assembly.setUp(),
            map,
            specimen,
            defects,
            capabilities().probes(),
            new Seat.Odds(conditions.law(), conditions.miss(), conditions.closing()));
    Circuit circuit =
        new Circuit(
            assembly,
            sound,
            seat.effective(),
            fixture.contacts(),
            capabilities().switching().groups(),
            hardware.strays() ? Optional.of(new Strays(hardware, seat)) : Optional.empty(),
            pattern);
    pattern = Optional.of(circuit.pattern());
    clamped = Optional.of(new Clamped(assembly, sound, defects, seat, circuit));
  }

  private Clamped clampedNow() {
    return clamped.orElseThrow(() -> new IllegalStateException("nothing has been clamped yet"));
  }

  private Optional<SetUp> inside() {
    return specimen.troubles().stream()
        .filter(Specimen.Trouble.Inside.class::isInstance)
        .map(Specimen.Trouble.Inside.class::cast)
        .map(
            trouble ->
                SetUp.named(trouble.setUp())
                    .orElseThrow(
                        () -> new IllegalArgumentException("no set-up " + trouble.setUp())))
        .findFirst();
  }

  private Interposer variant() {
    return map.interposers().stream()
        .filter(i -> i.variant().equals(specimen.variant()))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    map.device() + " has no interposer variant " + specimen.variant()));
  }

  /**
   * What is wrong with the specimen after these actions, without the pressure of a fixture.
   *
   * @param actions all actions of the job so far, in order
   */
  public Defects defectsAfter(List<Action> actions) {
    return History.defects(specimen, List.copyOf(actions));
  }

  /**
   * What is in the fixture now, without noise.
   *
   * @throws IllegalStateException when nothing was clamped
   */
  public Truth truth() {
    Clamped now = clampedNow();
    return new Truth(
        now.assembly,
        now.sound,
        now.seat.effective(),
        now.seat.heldShut(),
        List.copyOf(fixture.contacts()),
        capabilities(),
        pattern);
  }

  /** What two closed switches have on the average of their closures, in ohm, for a campaign. */
  public double pathOhms(Contact high, Contact low) {
    return hardware.ownOhms(high, true) + hardware.ownOhms(low, false);
  }

  /** Time that the fixture would have measured so far, in seconds. */
  public double deviceSeconds() {
    return deviceSeconds;
  }

  @Override
  public Capabilities capabilities() {
    return fixture.capabilities();
  }

  @Override
  public Clamping clamping() {
    long boot =
        new Draw(specimen.seed())
            .at(capabilities().identity())
            .at(conditions.seatingsBefore())
            .key();
    return new Clamping(boot & Long.MAX_VALUE, hardware.hasDeadLid() ? 0 : lid);
  }

  @Override
  public void run(Scan scan, Keep keep) throws FixtureException {
    if (clamped.isEmpty()) {
      throw new FixtureException.Refused("nothing is clamped in the virtual fixture");
    }
    new Gate(map, variant(), fixture).check(scan);
    stopping.set(false);
    running.set(true);
    try {
      measure(scan, keep, begin(), clampedNow().flicker);
    } finally {
      running.set(false);
    }
  }

  /**
   * Begins a run over what is clamped. Its readings depend on how many runs this seating has had
   * and on the steps before, not on who asks for them.
   *
   * @throws IllegalStateException when nothing was clamped
   */
  Meter begin() {
    Clamped now = clampedNow();
    return new Meter(capabilities(), now.circuit, instrument(now));
  }

  /**
   * The same for firmware that makes its points itself.
   *
   * @throws IllegalStateException when nothing was clamped
   */
  Legs beginLegs() {
    Clamped now = clampedNow();
    Instrument own = instrument(now);
    Solver solver = now.circuit.solver();
    return new Legs(capabilities(), new Terminals(capabilities(), now.circuit, solver, own), own);
  }

  private Instrument instrument(Clamped now) {
    Draw run = now.seat.draw().at("run").at(++now.runs);
    return new NoisyInstrument(hardware, now.seat, run);
  }

  /** What lies between the buses with every channel open, in siemens. */
  double idleSiemens() {
    return hardware.idleSiemens();
  }

  private void measure(Scan scan, Keep keep, Meter meter, Flicker flicker) {
    Set<Contact> high = Set.of();
    Set<Contact> low = Set.of();
    List<Reading> readings = new ArrayList<>();
    long closures = 0;
    double seconds = 0;
    for (int i = 0; i < scan.steps().size() && !stopping.get(); i++) {
      Step step = scan.steps().get(i);
      Set<Contact> nextHigh = new LinkedHashSet<>(step.high());
      Set<Contact> nextLow = new LinkedHashSet<>(step.low());
      long closed = closures(high, nextHigh) + closures(low, nextLow);
      // What comes and goes is taken as it is in the middle of the first reading.
      flicker.at(deviceSeconds + seconds + switching(closed > 0) + oneReading(step) / 2);
      Reading reading = meter.read(scan.first() + i, step);
      readings.add(reading);
      closures += closed;
      seconds += seconds(step, reading, closed > 0);
      high = nextHigh;
      low = nextLow;
      if (readings.size() == BATCH) {
        hand(new Batch(readings, closures, seconds), keep);
        readings = new ArrayList<>();
        closures = 0;
        seconds = 0;
      }
    }
    if (!readings.isEmpty()) {
      hand(new Batch(readings, closures, seconds), keep);
    }
  }

  private void hand(Batch batch, Keep keep) {
    deviceSeconds += batch.deviceSeconds();
    conditions.pace().spend(batch.deviceSeconds());
    keep.keep(batch);
  }

  private long closures(Set<Contact> before, Set<Contact> after) {
    return after.stream().filter(c -> !before.contains(c)).mapToLong(hardware::channels).sum();
  }

  private double seconds(Step step, Reading reading, boolean switched) {
    int taken = reading instanceof Reading.Measured measured ? measured.points().size() : 1;
    int readings =
        Math.max(
            Math.max(taken, step.samples()),
            step.currents().size() > 1 ? step.currents().size() + 1 : 1);
    return switching(switched) + readings * oneReading(step);
  }

  private double switching(boolean switched) {
    return switched
        ? capabilities().path().operateSeconds() + capabilities().path().releaseSeconds()
        : 0;
  }

  private double oneReading(Step step) {
    return capabilities().range(step.kind()).map(Range::seconds).orElse(0.0);
  }

  @Override
  public void stop() {
    if (running.get()) {
      stopping.set(true);
    }
  }

  /** Fingerprint of everything the readings depend on, for the record: 64 hexadecimal digits. */
  public String hash() {
    List<String> texts =
        List.of(
            specimen.toString(),
            fixture.name(),
            capabilities().toString(),
            fixture.channels().toString(),
            new TreeSet<>(fixture.defective()).toString(),
            map.device(),
            map.interposers().toString(),
            map.positions().toString(),
            map.nets().toString(),
            map.loads().toString(),
            map.points().toString(),
            conditions.law().toString(),
            Double.toString(conditions.miss()),
            Double.toString(conditions.closing()),
            Integer.toString(conditions.seatingsBefore()));
    return Sha256.of(String.join("\n", texts) + "\n");
  }
}
