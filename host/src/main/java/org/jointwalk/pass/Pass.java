package org.jointwalk.pass;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Scan;
import org.jointwalk.grade.Grading;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Event;
import org.jointwalk.job.Findings;
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
 * a fresh pass is the resume of an empty one. One thread; {@link Fixture#stop} ends it early.
 */
public final class Pass {

  private final Fixture fixture;
  private final JobLog log;
  private final Operator operator;
  private final Request request;
  private final Assembly assembly;
  private final Grading grading;
  private int commits;
  private long seq;

  /**
   * @param fixture with the parts clamped in it
   * @param log that holds the job
   * @param operator who is at the fixture
   * @param request what to do
   */
  public Pass(Fixture fixture, JobLog log, Operator operator, Request request) {
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
    Job job = job();
    requirePossible(assembly, job);
    int number = begin(job);
    job = job();
    Solve solve = new Solve(assembly, fixture.capabilities(), OwnDrops.of(job, assembly, number));
    Plan plan = new Plan(assembly, fixture.capabilities(), request.wired(), solve);
    int seating = seat(number);
    finishScan(number, seating);
    while (true) {
      Estimates estimates = solve.estimates(record(number).measurements());
      Optional<String> danger = grading.danger(estimates);
      if (danger.isPresent()) {
        throw new PassException.Unsafe(danger.get());
      }
      List<Question> questions = grading.open(estimates, seating);
      if (questions.isEmpty()) {
        return seal(number, seating, estimates);
      }
      if (questions.get(0).need() == Need.RESEAT) {
        if (!operator.reseat(positions(questions))) {
          return seal(number, seating, estimates);
        }
        int next = seat(number);
        if (next == seating) {
          operator.remark("The fixture did not see its lid open: nothing was seated again.");
          return seal(number, seating, estimates);
        }
        seating = next;
        continue;
      }
      Scan scan = plan.scan(questions, estimates, seating);
      if (scan.steps().isEmpty()) {
        return seal(number, seating, estimates);
      }
      int index = record(number).scans().size() + 1;
      append(new Event.ScanPlanned(number, seating, index, scan));
      run(number, index, scan, questions.get(0).need());
    }
  }

  private Job job() {
    Job job = Job.fold(request.job(), log.read(request.job()));
    seq = job.lastSeq();
    return job;
  }

  private PassRecord record(int number) {
    return job().passes().get(number - 1);
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

  private int begin(Job job) {
    Optional<PassRecord> interrupted =
        job.passes().stream()
            .filter(p -> p.open() && p.begun().setUp().equals(assembly.setUp().name()))
            .reduce((first, last) -> last);
    if (request.resume() && interrupted.isPresent()) {
      return interrupted.get().begun().pass();
    }
    int number = job.passes().size() + 1;
    append(
        new Event.PassBegun(
            number,
            assembly.setUp().name(),
            request.purpose(),
            assembly.interposer().variant(),
            request.padMap(),
            request.fixtureMap(),
            fixture.capabilities(),
            request.by()));
    return number;
  }

  /**
   * The seating in place: the last one when boot id and lid counter are unchanged, else a new one.
   */
  private int seat(int number) throws FixtureException {
    Clamping clamping = fixture.clamping();
    Job job = job();
    List<Seating> seatings = job.passes().get(number - 1).seatings();
    if (!seatings.isEmpty()) {
      Seating last = seatings.get(seatings.size() - 1);
      if (last.clamping().equals(clamping)) {
        return last.number();
      }
    }
    Seating next = new Seating(job.seatings() + 1, clamping);
    append(new Event.Seated(number, next));
    return next.number();
  }

  /** A scan that was cut short is finished when its seating is still in place. */
  private void finishScan(int number, int seating) throws FixtureException, PassException {
    List<PassRecord.ScanRecord> scans = record(number).scans();
    if (scans.isEmpty()) {
      return;
    }
    PassRecord.ScanRecord last = scans.get(scans.size() - 1);
    if (!last.complete() && last.seating() == seating) {
      run(number, scans.size(), last.plan().from(last.taken()), Need.PATH);
    }
  }

  private void run(int number, int index, Scan scan, Need need)
      throws FixtureException, PassException {
    int[] taken = {0};
    int of = scan.steps().size();
    fixture.run(
        scan,
        batch -> {
          append(new Event.BatchKept(number, index, batch));
          taken[0] += batch.readings().size();
          operator.progress(need, taken[0], of);
        });
    if (taken[0] < of) {
      throw new PassException.Interrupted(
          "stopped after " + taken[0] + " of " + of + " readings of scan " + index);
    }
  }

  private void append(Event event) {
    seq = log.append(request.job(), seq, List.of(event));
    commits++;
  }

  private Outcome seal(int number, int seating, Estimates estimates) {
    grading.remarks(estimates).forEach(operator::remark);
    Findings findings = grading.findings(estimates);
    append(new Event.PassGraded(number, findings, request.program()));
    PassRecord record = record(number);
    List<Batch> batches = record.scans().stream().flatMap(s -> s.batches().stream()).toList();
    return new Outcome(
        number,
        seating,
        findings,
        batches.stream().mapToInt(b -> b.readings().size()).sum(),
        batches.size(),
        commits,
        batches.stream().mapToLong(Batch::closures).sum(),
        batches.stream().mapToDouble(Batch::deviceSeconds).sum());
  }

  private static List<String> positions(List<Question> questions) {
    Set<String> positions =
        questions.stream()
            .flatMap(q -> q.contacts().stream())
            .filter(Contact.Pad.class::isInstance)
            .map(c -> ((Contact.Pad) c).position())
            .collect(Collectors.toCollection(java.util.LinkedHashSet::new));
    return new ArrayList<>(positions);
  }
}
