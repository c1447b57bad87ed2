package org.jointwalk.campaign;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.job.Event;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Job;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Question.Need;
import org.jointwalk.joblog.MemoryJobLog;
import org.jointwalk.link.LinkFixture;
import org.jointwalk.link.LinkSettings;
import org.jointwalk.pass.Operator;
import org.jointwalk.pass.Outcome;
import org.jointwalk.pass.Pass;
import org.jointwalk.pass.PassException;
import org.jointwalk.pass.Request;
import org.jointwalk.simulator.Device;
import org.jointwalk.simulator.LineFaults;
import org.jointwalk.simulator.LineWeather;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Specimen;

/**
 * One pass over a virtual device behind a line, in simulated time; nothing is seated again.
 *
 * @param outcome empty when the pass ended with an error
 * @param error what the technician would have read then, else empty
 * @param grades by position; empty with an error
 * @param compared what the log kept against what the device took
 * @param kept readings in the log
 * @param opening microseconds until the fixture was opened and told what is clamped
 * @param micros time of the pass after that
 * @param bytes sent in the direction that carried more
 */
record LinePass(
    Optional<Outcome> outcome,
    String error,
    Map<String, Grade> grades,
    DeviceAccount.Comparison compared,
    long kept,
    long opening,
    long micros,
    long bytes) {

  private static final String JOB = "J-0001";

  /** The same pass without any line. */
  static Map<String, Grade> inProcess(Stand stand, Specimen specimen) {
    VirtualFixture fixture =
        new VirtualFixture(stand.map(), specimen, stand.fixture(), VirtualFixture.Conditions.CALM);
    fixture.clamp(stand.setUp(), stand.actions());
    try {
      return grades(run(fixture, stand, log(stand)));
    } catch (FixtureException | PassException e) {
      throw new IllegalStateException("a pass in process failed", e);
    }
  }

  /**
   * Runs the pass.
   *
   * @param pace share of its time that the device really takes
   */
  static LinePass over(
      Stand stand,
      Specimen specimen,
      LineWeather weather,
      double pace,
      LinkSettings settings,
      SplittableRandom random) {
    SimulatedTime time = new SimulatedTime();
    DeviceAccount account = new DeviceAccount();
    Device device =
        new Device(
            stand.map(),
            specimen,
            stand.fixture(),
            VirtualFixture.Conditions.CALM,
            setUp -> stand.actions(),
            pace,
            new Device.Start(1, 1),
            account);
    WeatheredPort port = new WeatheredPort(device, new LineFaults(weather, random.split()), time);
    MemoryJobLog log = log(stand);
    Optional<Outcome> outcome = Optional.empty();
    String error = "";
    long opened = 0;
    try (LinkFixture fixture =
        LinkFixture.open(port, stand.assembly(), stand.fixture(), time, random.split(), settings)) {
      // Once a session; a pass that follows another one in it finds it done.
      fixture.clamping();
      opened = time.micros();
      outcome = Optional.of(run(fixture, stand, log));
    } catch (FixtureException | PassException e) {
      error = String.valueOf(e.getMessage());
    }
    List<Batch> kept = kept(log);
    return new LinePass(
        outcome,
        error,
        outcome.map(LinePass::grades).orElse(Map.of()),
        account.compare(kept),
        kept.stream().mapToLong(b -> b.readings().size()).sum(),
        opened,
        time.micros() - opened,
        port.bytes());
  }

  private static MemoryJobLog log(Stand stand) {
    MemoryJobLog log = new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC);
    List<Event> events = new ArrayList<>();
    events.add(
        new Event.Opened(new Intake(stand.map().device(), "", "not said", List.of(), ""), "jw"));
    stand.actions().forEach(action -> events.add(new Event.Done(action, "jw")));
    log.append(JOB, 0, events);
    return log;
  }

  private static Outcome run(Fixture fixture, Stand stand, MemoryJobLog log)
      throws FixtureException, PassException {
    Request request =
        new Request(
            JOB,
            stand.assembly(),
            stand.fixture().contacts(),
            Purpose.DIAGNOSIS,
            "",
            "",
            "jw",
            "campaign",
            false);
    return new Pass(fixture, log, new Nobody(), request).run();
  }

  private static List<Batch> kept(MemoryJobLog log) {
    List<Batch> kept = new ArrayList<>();
    Job.fold(JOB, log.read(JOB))
        .passes()
        .forEach(p -> p.scans().forEach(scan -> kept.addAll(scan.batches())));
    return kept;
  }

  private static Map<String, Grade> grades(Outcome outcome) {
    Map<String, Grade> grades = new LinkedHashMap<>();
    outcome.findings().positions().forEach(f -> grades.put(f.position(), f.grade()));
    return grades;
  }

  /** Seats nothing again. */
  static final class Nobody implements Operator {

    @Override
    public boolean reseat(List<String> positions) {
      return false;
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
}
