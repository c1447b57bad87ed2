package org.jointwalk.pass;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Zero;
import org.jointwalk.grade.Grading;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.Question;
import org.jointwalk.job.Question.Need;
import org.jointwalk.job.Seating;
import org.jointwalk.plan.Plan;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;

/**
 * One pass: asks what is open, runs the scan that answers it, keeps each batch before the fixture
 * may go on, and begins again, until nothing is open. All that it knows comes from the log, so that
 * a fresh pass is the resume of an empty one. One thread, but for {@link #stop}.
 */
public final class Pass {

  /** A discharge is tried again; any other scan that changed nothing would change nothing again. */
  private static final int DISCHARGES = 3;

  private final Fixture fixture;
  private final JobLog log;
  private final Operator operator;
  private final Request request;
  private final Assembly assembly;
  private final Grading grading;
  private final Optional<Zero> newest;
  private volatile boolean stopping;

  /**
   * @param fixture with the parts clamped in it
   * @param log that holds the job
   * @param operator who is at the fixture
   * @param request what to do
   */
  public Pass(Fixture fixture, JobLog log, Operator operator, Request request) {
    this(fixture, log, operator, request, Optional.empty());
  }

  /**
   * @param fixture with the parts clamped in it
   * @param log that holds the job
   * @param operator who is at the fixture
   * @param request what to do
   * @param newest zero of the fixture that holds; a pass that goes on keeps the one it began with
   */
  public Pass(
      Fixture fixture, JobLog log, Operator operator, Request request, Optional<Zero> newest) {
    this.newest = newest;
    this.fixture = fixture;
    this.log = log;
    this.operator = operator;
    this.request = request;
    this.assembly = request.assembly();
    this.grading = new Grading(assembly, fixture.capabilities(), request.wired());
  }

  /**
   * Runs the pass to its end and seals its findings in the log.
   *
   * @throws FixtureException when the fixture fails; what was kept stays good and can be resumed
   * @throws PassException when the pass is impossible, unsafe or was stopped
   */
  public Outcome run() throws FixtureException, PassException {
    try {
      return walk();
    } catch (FixtureException.Unreachable e) {
      if (stopping) {
        // Somebody who wants to leave is not waited for; that nothing answered so soon says little.
        throw interrupted("while the fixture was asked how it is");
      }
      throw e;
    }
  }

  /**
   * Ends the pass at the next point where nothing is lost: a scan after the batch under way, and
   * whatever waits, for the fixture or for the operator, soon. Then {@link #run} throws {@link
   * PassException.Interrupted}, unless the findings were being sealed. Any thread, any number of
   * times; a stop that comes before the pass ends it at its beginning.
   */
  public void stop() {
    stopping = true;
    fixture.stop();
    operator.stop();
  }

  private Outcome walk() throws FixtureException, PassException {
    Job job = Job.fold(request.job(), log.read(request.job()));
    requirePossible(assembly, job);
    requireGoingOn("before anything was read");
    Ledger ledger = begin(job);
    Solve solve =
        new Solve(
            assembly,
            fixture.capabilities(),
            OwnDrops.of(job, assembly, ledger.pass()),
            ledger.zero());
    Plan plan = new Plan(assembly, fixture.capabilities(), request.wired(), solve);
    int seating = seat(ledger);
    finishScan(ledger, seating);
    Set<Need> exhausted = EnumSet.noneOf(Need.class);
    while (true) {
      requireGoingOn("between two scans");
      int inPlace = seat(ledger);
      if (inPlace != seating) {
        seating = inPlace;
        exhausted.clear();
      }
      Estimates estimates = solve.estimates(ledger.measurements());
      Optional<String> danger = grading.danger(estimates);
      if (danger.isPresent()) {
        throw new PassException.Unsafe(danger.get());
      }
      List<Question> questions = grading.open(estimates, seating, exhausted);
      if (questions.isEmpty()) {
        return seal(ledger, estimates);
      }
      Need need = questions.get(0).need();
      if (need == Need.RESEAT) {
        if (!isSeatedAgain(ledger, seating, questions)) {
          return seal(ledger, estimates);
        }
        continue;
      }
      Scan scan = plan.scan(questions, estimates, seating);
      if (isUnanswerable(ledger, seating, need, scan)) {
        if (need == Need.SAFETY) {
          operator.remark("It could not be shown to be safe, so that nothing more was read.");
          return seal(ledger, estimates);
        }
        exhausted.add(need);
        continue;
      }
      exhausted.clear();
      ledger.append(new Event.ScanPlanned(ledger.pass(), seating, ledger.nextScan(), scan));
      run(ledger, scan, need);
    }
  }

  /** Whether a scan would tell nothing that is not known: it has no steps, or was taken before. */
  private static boolean isUnanswerable(Ledger ledger, int seating, Need need, Scan scan) {
    return scan.steps().isEmpty()
        || ledger.finished(scan, seating) >= (need == Need.SAFETY ? DISCHARGES : 1);
  }

  private boolean isSeatedAgain(Ledger ledger, int seating, List<Question> questions)
      throws FixtureException, PassException {
    boolean done = operator.reseat(positions(questions));
    requireGoingOn("while the parts were to be seated again");
    if (!done) {
      return false;
    }
    if (seat(ledger) != seating) {
      return true;
    }
    operator.remark("The fixture did not see its lid open: nothing was seated again.");
    return false;
  }

  /**
   * Refuses what cannot be in the fixture now.
   *
   * @throws PassException.Impossible naming the action that is missing
   */
  public static void requirePossible(Assembly assembly, Job job) throws PassException.Impossible {
    if (job.closed()) {
      throw new PassException.Impossible("job " + job.id() + " is closed");
    }
    if (!assembly.setUp().possible().contains(job.attachment())) {
      throw new PassException.Impossible(Missing.words(assembly, job));
    }
  }

  private Ledger begin(Job job) {
    Optional<PassRecord> interrupted =
        request.resume()
            ? job.passes().stream().filter(p -> canGoOn(job, p)).reduce((first, last) -> last)
            : Optional.empty();
    if (interrupted.isPresent()) {
      return new Ledger(log, job, interrupted.get());
    }
    Ledger ledger = new Ledger(log, job);
    ledger.append(
        new Event.PassBegun(
            ledger.pass(),
            assembly.setUp().name(),
            request.purpose(),
            assembly.interposer().variant(),
            request.padMap(),
            request.fixtureMap(),
            fixture.capabilities(),
            request.by()));
    newest.ifPresent(zero -> ledger.append(new Event.ZeroUsed(ledger.pass(), zero)));
    return ledger;
  }

  /**
   * Whether a pass was interrupted and its readings still hold: the same parts by the same maps in
   * the same fixture, and nothing done to them since.
   */
  private boolean canGoOn(Job job, PassRecord pass) {
    Event.PassBegun begun = pass.begun();
    return pass.open()
        && begun.setUp().equals(assembly.setUp().name())
        && begun.variant().equals(assembly.interposer().variant())
        && begun.padMap().equals(request.padMap())
        && begun.fixtureMap().equals(request.fixtureMap())
        && begun.capabilities().equals(fixture.capabilities())
        && job.timeline().stream()
            .noneMatch(l -> l.seq() > pass.seq() && l.event() instanceof Event.Done);
  }

  /**
   * The seating in place: the last one when boot id and lid counter are unchanged, else a new one.
   */
  private int seat(Ledger ledger) throws FixtureException {
    Clamping clamping = fixture.clamping();
    Optional<Seating> last = ledger.seating().filter(s -> s.clamping().equals(clamping));
    if (last.isPresent()) {
      return last.get().number();
    }
    Seating next = new Seating(ledger.nextSeating(), clamping);
    ledger.append(new Event.Seated(ledger.pass(), next));
    return next.number();
  }

  /** A scan that was cut short is finished when its seating is still in place. */
  private void finishScan(Ledger ledger, int seating) throws FixtureException, PassException {
    Optional<Scan> rest = ledger.unfinished(seating);
    if (rest.isPresent()) {
      run(ledger, rest.get(), Need.PATH);
    }
  }

  private void run(Ledger ledger, Scan scan, Need need) throws FixtureException, PassException {
    int index = ledger.nextScan() - 1;
    int before = ledger.measurements().size();
    int of = scan.steps().size();
    fixture.run(
        scan,
        batch -> {
          ledger.append(new Event.BatchKept(ledger.pass(), index, batch));
          operator.progress(need, ledger.measurements().size() - before, of);
          if (stopping) {
            // A stop that came just before the fixture had begun would have been passed over.
            fixture.stop();
          }
        });
    int taken = ledger.measurements().size() - before;
    if (taken < of) {
      throw interrupted("after " + taken + " of " + of + " readings of scan " + index);
    }
  }

  private void requireGoingOn(String where) throws PassException.Interrupted {
    if (stopping) {
      throw interrupted(where);
    }
  }

  private static PassException.Interrupted interrupted(String where) {
    return new PassException.Interrupted(
        "Stopped " + where + ". Nothing is lost: run the same command with --resume.");
  }

  private Outcome seal(Ledger ledger, Estimates estimates) {
    grading.remarks(estimates).forEach(operator::remark);
    ledger.refusals().stream()
        .findFirst()
        .ifPresent(
            reason ->
                operator.remark(
                    "The fixture refused "
                        + ledger.refusals().size()
                        + " of the readings asked for; the first: "
                        + reason));
    Event.PassGraded graded =
        new Event.PassGraded(ledger.pass(), grading.findings(estimates), request.program());
    ledger.append(graded);
    return ledger.outcome(graded);
  }

  private static List<String> positions(List<Question> questions) {
    Set<String> positions =
        questions.stream()
            .flatMap(q -> q.contacts().stream())
            .filter(Contact.Pad.class::isInstance)
            .map(c -> ((Contact.Pad) c).position())
            .collect(Collectors.toCollection(LinkedHashSet::new));
    return new ArrayList<>(positions);
  }
}
