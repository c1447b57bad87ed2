package org.jointwalk.study;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Ceilings;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Gauge;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.FixtureEvent;
import org.jointwalk.job.FixtureRecord;
import org.jointwalk.job.FixtureTask;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.Seating;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Limits;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Role;

/**
 * A study of repeatability and reproducibility: the same positions of a bare interposer, clamped
 * several times by each of several people, who take turns so that a drift is not taken for a
 * person. No board is there that could be harmed. All readings are kept in the fixture's stream as
 * they come. One thread, but for {@link #stop}.
 */
public final class Study {

  private static final int POSITIONS = Ranges.MOST;

  /** Share of the room below a limit up to which a gauge is fit (common practice). */
  private static final double FIT_PERCENT = 10;

  private static final double CARE_PERCENT = 30;

  private final Fixture fixture;
  private final JobLog log;
  private final Clamper clamper;
  private final Order order;
  private final Capabilities capabilities;
  private volatile boolean stopping;

  /**
   * @param fixture with the parts beside it
   * @param log that keeps the fixture's stream
   * @param clamper who has the parts clamped
   * @param order what to do
   */
  public Study(Fixture fixture, JobLog log, Clamper clamper, Order order) {
    this.fixture = fixture;
    this.log = log;
    this.clamper = clamper;
    this.order = order;
    this.capabilities = fixture.capabilities();
  }

  /** Ends the study soon, without a result. Any thread, any number of times. */
  public void stop() {
    stopping = true;
    fixture.stop();
  }

  /** The stream as far as it was written. */
  private final class Stream {

    private final String name = FixtureRecord.stream(capabilities.identity());
    private final int run;
    private long seq;
    private int seatings;

    private Stream(FixtureRecord before) {
      run = before.nextRun();
      seq = before.lastSeq();
      seatings = before.seatings();
    }

    private void append(FixtureEvent event) {
      seq = log.append(name, seq, List.of(event));
    }
  }

  /**
   * Runs the study and keeps its result.
   *
   * @throws FixtureException when the fixture fails; what was read is in the log
   * @throws StudyException when positions cannot be read, or nobody clamps
   */
  public Gauge run() throws FixtureException, StudyException {
    Map<String, Step> steps = steps();
    Stream stream = new Stream(FixtureRecord.read(log, capabilities.identity()));
    stream.append(
        new FixtureEvent.Begun(
            stream.run,
            FixtureTask.STUDY,
            order.fixtureMap(),
            capabilities,
            String.join(" ", order.operators())));
    List<List<List<Double>>> values = new ArrayList<>();
    for (int i = 0; i < steps.size(); i++) {
      List<List<Double>> position = new ArrayList<>();
      order.operators().forEach(o -> position.add(new ArrayList<>()));
      values.add(position);
    }
    int all = order.operators().size() * order.seatings();
    int number = 0;
    Optional<Clamping> last = Optional.empty();
    for (int seating = 0; seating < order.seatings(); seating++) {
      for (int j = 0; j < order.operators().size(); j++) {
        String by = order.operators().get(j);
        if (!clamper.clamp(by, ++number, all) || stopping) {
          throw new StudyException(
              "The study ended after "
                  + (number - 1)
                  + " of "
                  + all
                  + " clampings. What was read is kept; a study is begun anew.");
        }
        Clamping now = fixture.clamping();
        if (last.equals(Optional.of(now))) {
          throw new StudyException(
              "The fixture has not seen its lid open before clamping "
                  + number
                  + ", so that nothing was seated again. Begin the study anew.");
        }
        last = Optional.of(now);
        List<Double> ohms = read(stream, now, number, List.copyOf(steps.values()));
        for (int i = 0; i < ohms.size(); i++) {
          values.get(i).get(j).add(ohms.get(i));
        }
      }
    }
    Gauge gauge = judge(List.copyOf(steps.keySet()), new Readings(values));
    stream.append(new FixtureEvent.Studied(stream.run, gauge, order.program()));
    return gauge;
  }

  private List<Double> read(Stream stream, Clamping clamping, int number, List<Step> steps)
      throws FixtureException, StudyException {
    Seating seating = new Seating(++stream.seatings, clamping);
    stream.append(new FixtureEvent.Clamped(stream.run, seating));
    Scan scan = Scan.of(order.assembly().setUp().name(), steps);
    stream.append(new FixtureEvent.Planned(stream.run, seating.number(), number, scan));
    Accuracy accuracy = new Accuracy(capabilities);
    List<Double> ohms = new ArrayList<>();
    List<String> missing = new ArrayList<>();
    fixture.run(
        scan,
        batch -> {
          stream.append(new FixtureEvent.Kept(stream.run, number, batch));
          for (Reading reading : batch.readings()) {
            if (reading instanceof Reading.Measured measured) {
              ohms.add(accuracy.ohms(scan.step(reading.index()), measured).value());
            } else {
              missing.add(scan.step(reading.index()).a().id());
            }
          }
        });
    if (!missing.isEmpty()) {
      throw new StudyException(
          "No path at "
              + String.join(", ", missing)
              + " in clamping "
              + number
              + ". Clean those probes, or leave those positions out with --pad, and begin anew.");
    }
    if (ohms.size() < steps.size()) {
      throw new StudyException("Stopped in clamping " + number + ". A study is begun anew.");
    }
    return ohms;
  }

  /** One step through each position, from above to below. */
  private Map<String, Step> steps() throws StudyException {
    List<String> possible = new ArrayList<>();
    for (String id : order.assembly().map().positions().keySet()) {
      if (isWired(Plate.OVER, id) && isWired(Plate.UNDER, id)) {
        possible.add(id);
      }
    }
    List<String> chosen = new ArrayList<>(order.positions());
    for (String id : chosen) {
      if (!possible.contains(id)) {
        throw new StudyException("Pad " + id + " is not wired on both plates. Leave it out.");
      }
    }
    if (chosen.isEmpty()) {
      int n = Math.min(POSITIONS, possible.size());
      for (int i = 0; i < n; i++) {
        chosen.add(possible.get(i * possible.size() / n));
      }
    }
    if (chosen.size() < 2 || chosen.size() > Ranges.MOST) {
      throw new StudyException("A study reads 2 to 10 positions, not " + chosen.size() + ".");
    }
    Map<String, Step> steps = new LinkedHashMap<>();
    for (String id : chosen) {
      steps.put(id, step(new Contact.Pad(Plate.OVER, id), new Contact.Pad(Plate.UNDER, id)));
    }
    return steps;
  }

  private boolean isWired(Plate plate, String position) {
    Contact contact = new Contact.Pad(plate, position);
    return order.wired().contains(contact) && order.assembly().contacts().contains(contact);
  }

  private Step step(Contact over, Contact under) throws StudyException {
    Kind kind = capabilities.gentlest();
    Range range =
        capabilities
            .range(kind)
            .orElseThrow(() -> new StudyException("This fixture reads no resistance."));
    Ceilings ceilings = new Ceilings(order.assembly());
    List<Contact> both = List.of(over, under);
    return new Step(
        kind,
        List.of(over),
        List.of(under),
        List.of(Amps.min(range.current(), ceilings.current(kind, both))),
        Volts.min(range.compliance(), ceilings.volts(kind, both)),
        1);
  }

  private Gauge judge(List<String> positions, Readings readings) {
    Ranges ranges = Ranges.of(readings);
    Anova anova = Anova.of(readings);
    List<String> strange =
        ranges.strange().stream()
            .map(c -> positions.get(c.position()) + " by " + order.operators().get(c.operator()))
            .toList();
    Limits limits = order.assembly().map().limits();
    double mean = readings.mean();
    return new Gauge(
        capabilities.identity(),
        capabilities.build(),
        capabilities.calibration(),
        order.assembly().setUp().name(),
        positions,
        order.operators(),
        order.seatings(),
        mean,
        ranges.parts(),
        anova.parts(),
        !anova.pooled(),
        strange,
        List.of(
            against("a signal's joint", limits.of("", Role.SIGNAL).value(), mean, anova.parts()),
            against("a rail's or ground's joint", limits.power().value(), mean, anova.parts())));
  }

  /** A limit has one side: what counts is the room between what good joints read and the limit. */
  static Gauge.AgainstLimit against(String name, double limit, double mean, Gauge.Parts parts) {
    double room = limit - mean;
    double percent = room > 0 ? 100 * 3 * parts.gauge() / room : Double.MAX_VALUE;
    Gauge.Fitness fitness =
        percent <= FIT_PERCENT
            ? Gauge.Fitness.FIT
            : percent <= CARE_PERCENT ? Gauge.Fitness.WITH_CARE : Gauge.Fitness.UNFIT;
    return new Gauge.AgainstLimit(name, limit, percent, fitness);
  }
}
