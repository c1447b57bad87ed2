package org.jointwalk.spice;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.List;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.PassRecord;
import org.jointwalk.joblog.SqliteJobLog;
import org.jointwalk.pass.Outcome;
import org.jointwalk.pass.Pass;
import org.jointwalk.pass.Replay;
import org.jointwalk.pass.Request;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.tool.NeedsTool;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A pass that went through the text of a log file says the same again, word for word. */
@NeedsTool("ngspice")
class ReplayTest {

  private static final SetUp SET_UP = SetUp.named("interposer-on-lower").orElseThrow();

  @TempDir private static Path folder;
  private static Handset handset;
  private static FixtureMap fixtureMap;
  private static Outcome sealed;
  private static Job job;

  @BeforeAll
  static void runAPassIntoAFile() throws Exception {
    PadMap map = Ring.of(60, 3, 1);
    handset = new Handset(map, Faults.ofEveryKind(), 8, 25);
    fixtureMap = FixtureMaps.photoRelay(map);
    try (JobLog log = file()) {
      sealed = new Bench(new Ngspice(folder), fixtureMap, log).pass(handset, SET_UP);
    }
    try (JobLog log = file()) {
      job = Job.fold(Bench.JOB, log.read(Bench.JOB));
    }
  }

  private static JobLog file() {
    return new SqliteJobLog(
        folder.resolve("jobs.db"), InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC);
  }

  private static PassRecord logged() {
    return job.passes().get(0);
  }

  @Test
  void readingsOfTheLogGiveTheSealedFindings() {
    Request request = Bench.request(handset.map(), fixtureMap, SET_UP);

    assertThat(Replay.findings(job, logged(), request.assembly(), request.wired()))
        .isEqualTo(sealed.findings());
  }

  @Test
  void fixtureThatAnswersFromTheLogIsAskedTheSameAndGivesTheSame() throws Exception {
    LoggedFixture fixture = new LoggedFixture(logged());
    JobLog again = Bench.memory();
    List<Event> before =
        job.timeline().stream().filter(l -> l.seq() < logged().seq()).map(l -> l.event()).toList();
    again.append(Bench.JOB, 0, before);

    Outcome outcome =
        new Pass(
                fixture,
                again,
                Bench.operator(fixture::reseat),
                Bench.request(handset.map(), fixtureMap, SET_UP))
            .run();

    assertThat(outcome).isEqualTo(sealed);
    assertThat(Job.fold(Bench.JOB, again.read(Bench.JOB)).passes()).isEqualTo(job.passes());
  }
}
