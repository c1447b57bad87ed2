package org.jointwalk.pass;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.grade.Grading;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Job;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.Measurement;
import org.jointwalk.job.Question;
import org.jointwalk.job.Question.Need;
import org.jointwalk.job.Seating;
import org.jointwalk.job.WatchEvent;
import org.jointwalk.job.WatchRecord;
import org.jointwalk.job.Watched;
import org.jointwalk.plan.Plan;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Plate;

/**
 * Looks at a few suspects over and over while somebody presses the board: which drops out first. In
 * each seating it first does what a pass does before anything is sourced. What changes is kept as
 * it comes, the looks are not: an hour has hundreds of thousands. One thread, but for {@link
 * #stop}.
 *
 * <p>Each look is as short as the fixture can make it, since a dropout is met the more often the
 * sooner each joint is looked at again; {@link Rounds} says in what order.
 */
public final class Watch {

  /** So long a scan is at most, in seconds: after it the seating is looked at. */
  private static final double SCAN_SECONDS = 10;

  /** Nobody is left without a word for longer, in seconds; nor does a kill lose more time. */
  private static final double SIGN_OF_LIFE_SECONDS = 5;

  /** So far above its noise is a step of resistance certain, even among a million looks. */
  private static final double OVER_NOISE = 8;

  /** A look that takes longer is worth a word, in seconds. */
  private static final double LONG_LOOK_SECONDS = 0.02;

  private static final int DISCHARGES = 3;

  private final Fixture fixture;
  private final JobLog log;
  private final Watcher watcher;
  private final WatchRequest request;
  private final Assembly assembly;
  private final Solve solve;
  private final Plan plan;
  private final Grading grading;
  private volatile boolean stopping;

  /**
   * @param fixture with the parts clamped in it
   * @param log that holds the job
   * @param watcher who presses
   * @param request what to do
   */
  public Watch(Fixture fixture, JobLog log, Watcher watcher, WatchRequest request) {
    this.fixture = fixture;
    this.log = log;
    this.watcher = watcher;
    this.request = request;
    this.assembly = request.assembly();
    Capabilities capabilities = fixture.capabilities();
    this.solve = new Solve(assembly, capabilities, List.of());
    this.plan = new Plan(assembly, capabilities, request.wired(), solve);
    this.grading = new Grading(assembly, capabilities, request.wired());
  }

  /** What is known while it runs. */
  private final class Course {

    private final Writing writing;
    private final int number;
    private int seatings;
    private Optional<Seating> seating = Optional.empty();
    private int scans;
    private double seconds;
    private double told;
    private Dropouts dropouts = new Dropouts(request.aboveOhms());
    private boolean begun;

    private Course(Job job) {
      writing = new Writing(log, job.id(), job.lastSeq());
      number = WatchRecord.of(job).size() + 1;
      seatings = job.seatings();
    }

    private boolean isOver() {
      return stopping || seconds >= request.seconds();
    }
  }

  /**
   * Watches until the time is over or {@link #stop} was called, and keeps what was seen.
   *
   * @throws FixtureException when the fixture fails; what was seen is in the log
   * @throws PassException when it is impossible or unsafe, or was stopped before it looked
   */
  public Watched run() throws FixtureException, PassException {
    Job job = Job.fold(request.job(), log.read(request.job()));
    Pass.requirePossible(assembly, job);
    Course course = new Course(job);
    course.writing.append(
        new WatchEvent.Begun(
            course.number,
            assembly.setUp().name(),
            assembly.interposer().variant(),
            request.padMap(),
            request.fixtureMap(),
            fixture.capabilities(),
            request.by()));
    boolean closed = true;
    while (closed && !course.isOver()) {
      try {
        look(course);
      } catch (FixtureException.LidOpened e) {
        note(course, "the lid was opened");
        closed = watcher.lidOpened();
      }
    }
    if (!course.begun) {
      throw new PassException.Interrupted("Stopped before any joint was looked at.");
    }
    Watched watched = course.dropouts.watched(course.seconds);
    course.writing.append(new WatchEvent.Ended(course.number, watched, request.program()));
    return watched;
  }

  /** Ends the watch soon; what was seen is kept. Any thread, any number of times. */
  public void stop() {
    stopping = true;
    fixture.stop();
    watcher.stop();
  }

  /** Looks for as long as one seating lasts. */
  private void look(Course course) throws FixtureException, PassException {
    int seating = seat(course);
    Estimates estimates = precautions(course, seating);
    if (stopping) {
      return;
    }
    List<Contact> contacts =
        request.positions().stream().flatMap(p -> contact(p).stream()).toList();
    Set<Contact> trusted = new LinkedHashSet<>();
    request.good().forEach(p -> trusted.addAll(contacts(p)));
    Map<Contact, Step> looks = plan.looks(contacts, trusted, estimates, seating);
    List<String> positions = looks.keySet().stream().map(Watch::position).toList();
    List<Step> steps = List.copyOf(looks.values());
    begin(course, positions, steps);
    double round = steps.stream().mapToDouble(this::seconds).sum();
    Rounds rounds = new Rounds(steps.stream().map(this::seconds).toList());
    long done = 0;
    while (!course.isOver() && seat(course) == seating) {
      double left = Math.min(SCAN_SECONDS, request.seconds() - course.seconds);
      int n = (int) Math.max(1, Math.ceil(left / round));
      List<Integer> order = rounds.order(done, n);
      done += n;
      Scan scan = Scan.of(assembly.setUp().name(), order.stream().map(steps::get).toList());
      fixture.run(scan, batch -> take(course, batch, scan, order, positions));
    }
  }

  private void begin(Course course, List<String> positions, List<Step> steps)
      throws PassException.Impossible {
    List<String> unseen = new ArrayList<>(request.positions());
    unseen.removeAll(positions);
    if (steps.isEmpty()) {
      throw new PassException.Impossible(
          "None of these joints can be looked at in this set-up: "
              + String.join(", ", unseen)
              + ". Name others with --pad, or choose another set-up.");
    }
    double above =
        Math.max(
            request.aboveOhms(), steps.stream().mapToDouble(this::leastOhms).max().orElseThrow());
    if (!course.begun) {
      course.dropouts = new Dropouts(above);
      course.begun = true;
    }
    if (above > request.aboveOhms()) {
      watcher.remark(
          "This fixture tells no change below "
              + Words.ohms(above)
              + " from its noise, so that a dropout is more than that.");
    }
    double longest = steps.stream().mapToDouble(this::seconds).max().orElseThrow();
    if (longest > LONG_LOOK_SECONDS) {
      watcher.remark(
          "One look takes this fixture "
              + Words.seconds(longest)
              + ": short dropouts are met by chance only. Watch fewer joints.");
    }
    List<WatchEvent.Look> looks = new ArrayList<>();
    for (int i = 0; i < steps.size(); i++) {
      Step step = steps.get(i);
      Contact own = contact(positions.get(i)).orElseThrow();
      looks.add(
          new WatchEvent.Look(positions.get(i), (step.a().equals(own) ? step.b() : step.a()).id()));
    }
    WatchEvent.Looking looking =
        new WatchEvent.Looking(course.number, course.seconds, looks, above, unseen);
    course.writing.append(looking);
    course.dropouts.begin(positions);
    watcher.looking(looking);
  }

  private void take(
      Course course, Batch batch, Scan scan, List<Integer> order, List<String> positions) {
    List<WatchEvent.Edge> edges = new ArrayList<>();
    double each = batch.deviceSeconds() / batch.readings().size();
    for (Reading reading : batch.readings()) {
      double from = course.seconds;
      course.seconds += each;
      course
          .dropouts
          .look(
              positions.get(order.get(reading.index())),
              scan.step(reading.index()),
              reading,
              from,
              course.seconds)
          .ifPresent(edges::add);
    }
    if (!edges.isEmpty() || course.seconds - course.told >= SIGN_OF_LIFE_SECONDS) {
      course.writing.append(
          new WatchEvent.Changed(course.number, course.seconds, course.dropouts.looks(), edges));
      course.told = course.seconds;
    }
    watcher.notes().forEach(text -> note(course, text));
    edges.forEach(watcher::changed);
    watcher.progress(course.seconds, course.dropouts.looks());
    if (course.isOver()) {
      fixture.stop();
    }
  }

  private static void note(Course course, String text) {
    course.writing.append(new WatchEvent.Noted(course.number, course.seconds, text));
  }

  private int seat(Course course) throws FixtureException {
    Clamping clamping = fixture.clamping();
    Optional<Seating> same = course.seating.filter(s -> s.clamping().equals(clamping));
    if (same.isEmpty()) {
      Seating next = new Seating(++course.seatings, clamping);
      course.writing.append(new WatchEvent.Seated(course.number, next));
      course.seating = Optional.of(next);
      return next.number();
    }
    return same.get().number();
  }

  /** What a pass does before anything is sourced; its scans are kept like a pass's. */
  private Estimates precautions(Course course, int seating) throws FixtureException, PassException {
    List<Measurement> measurements = new ArrayList<>();
    Map<Scan, Integer> taken = new LinkedHashMap<>();
    while (true) {
      Estimates estimates = solve.estimates(measurements);
      Optional<String> danger = grading.danger(estimates);
      if (danger.isPresent()) {
        throw new PassException.Unsafe(danger.get());
      }
      List<Question> questions = grading.open(estimates, seating, Set.of());
      if (stopping || (!questions.isEmpty() && isHarmless(questions.get(0).need()))) {
        return estimates;
      }
      Scan scan =
          questions.isEmpty() || questions.get(0).need() != Need.SAFETY
              ? Scan.of(assembly.setUp().name(), List.of())
              : plan.scan(questions, estimates, seating);
      if (scan.steps().isEmpty() || taken.merge(scan, 1, Integer::sum) > DISCHARGES) {
        throw new PassException.Unsafe(
            "It could not be shown that the board carries no voltage: no ground was found, or a net"
                + " did not come to rest. Nothing was sourced. Seat the parts again.");
      }
      run(course, seating, scan, measurements);
    }
  }

  /** A pass asks for paths only once it has been shown that something may be sourced. */
  private static boolean isHarmless(Need need) {
    return need != Need.SAFETY && need != Need.RESEAT;
  }

  private void run(Course course, int seating, Scan scan, List<Measurement> measurements)
      throws FixtureException {
    int number = ++course.scans;
    course.writing.append(new WatchEvent.Planned(course.number, seating, number, scan));
    fixture.run(
        scan,
        batch -> {
          course.writing.append(new WatchEvent.Kept(course.number, number, batch));
          batch
              .readings()
              .forEach(r -> measurements.add(new Measurement(seating, scan.step(r.index()), r)));
          if (stopping) {
            fixture.stop();
          }
        });
  }

  /** Time of one look as the fixture states it. */
  private double seconds(Step step) {
    Capabilities able = fixture.capabilities();
    double reading = able.range(step.kind()).map(Range::seconds).orElse(0.0);
    return able.path().operateSeconds()
        + able.path().releaseSeconds()
        + reading * (step.kind() == Kind.JUNCTION ? 2 : step.samples());
  }

  /** The smallest change that is certain not to be noise. */
  private double leastOhms(Step step) {
    return fixture
        .capabilities()
        .range(step.kind())
        .filter(r -> !step.currents().isEmpty())
        .map(
            r ->
                OVER_NOISE
                    * r.noise().value()
                    / Math.min(r.current().value(), step.currents().get(0).value()))
        .orElse(0.0);
  }

  private Optional<Contact> contact(String position) {
    return contacts(position).stream().findFirst();
  }

  private List<Contact> contacts(String position) {
    List<Contact> found = new ArrayList<>();
    for (Plate plate : Plate.values()) {
      Contact contact = new Contact.Pad(plate, position);
      if (assembly.contacts().contains(contact) && request.wired().contains(contact)) {
        found.add(contact);
      }
    }
    return found;
  }

  private static String position(Contact contact) {
    return ((Contact.Pad) contact).position();
  }
}
