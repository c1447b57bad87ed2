package org.jointwalk.program;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assumptions.assumeThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jointwalk.fixture.Reading;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Job;
import org.jointwalk.job.PassRecord;
import org.jointwalk.joblog.SqliteJobLog;
import org.jointwalk.program.VirtualDevice.Signal;
import org.jointwalk.stack.Side;
import org.jointwalk.tool.NeedsTool;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The built program at one end of a line and its virtual fixture at the other, stopped, killed and
 * disturbed in the middle of a pass.
 */
@Timeout(120)
class LineIT {

  private static final String JOB = "J-0001";
  private static final String SET_UP = "interposer-on-lower";

  /** The technician leaves a second after Ctrl-C at the latest; the rest is a busy computer. */
  private static final long STOPPED_MILLIS = 1_500;

  @TempDir private Path folder = Path.of("");

  private VirtualDevice device;

  @BeforeEach
  void openJobAtAFixture() throws IOException {
    device = VirtualDevice.start(folder);
    try (SqliteJobLog log = new SqliteJobLog(log(), InstantSource.system(), ZoneOffset.UTC)) {
      Intake intake = new Intake("Saltmarsh S2", "", "dropped", List.of("radio"), "");
      log.append(
          JOB,
          0,
          List.of(
              new Event.Opened(intake, "ab"), new Event.Done(new Action.Split(Side.UPPER), "ab")));
    }
  }

  @AfterEach
  void leave() {
    device.close();
  }

  private Path log() {
    return folder.resolve("jobs.db");
  }

  private List<String> pass(String setUp, String... more) {
    List<String> words =
        new ArrayList<>(
            List.of(
                "pass",
                "--job",
                JOB,
                "--set-up",
                setUp,
                "--pads",
                Program.maps().resolve("saltmarsh-s2.pads.json").toString(),
                "--fixture",
                Program.maps().resolve("saltmarsh-photo-relay.fixture.json").toString(),
                "--log",
                log().toString()));
    words.addAll(List.of(more));
    return words;
  }

  private Program.Ended goOn() throws IOException, InterruptedException {
    return Program.built().run(folder, pass(SET_UP, "--port", device.port(), "--resume"));
  }

  /** A pass over the line, begun. */
  private Process begin() throws IOException {
    return begin(device.port());
  }

  private Process begin(String port, String... more) throws IOException {
    List<String> words =
        new ArrayList<>(
            List.of(Program.built().home().resolve("bin").resolve("jointwalk").toString()));
    words.addAll(pass(SET_UP, "--port", port));
    words.addAll(List.of(more));
    ProcessBuilder builder =
        new ProcessBuilder(words)
            .directory(folder.toFile())
            .redirectOutput(folder.resolve("out").toFile());
    builder.environment().put("JOINTWALK_JAVA_OPTS", "-Duser.home=" + folder);
    return builder.start();
  }

  private Job job() {
    try (SqliteJobLog log = new SqliteJobLog(log(), InstantSource.system(), ZoneOffset.UTC)) {
      return Job.fold(JOB, log.read(JOB));
    }
  }

  private PassRecord onlyPass() {
    assertThat(job().passes()).hasSize(1);
    return job().passes().get(0);
  }

  /** Waits until the second scan has readings in the log. */
  private void awaitMiddle(Process pass) throws InterruptedException {
    boolean there = false;
    while (!there) {
      assertThat(pass.waitFor(20, TimeUnit.MILLISECONDS)).as("the pass is over").isFalse();
      there =
          job().passes().stream()
              .flatMap(p -> p.scans().stream())
              .anyMatch(s -> s.plan().steps().size() > 300 && !s.batches().isEmpty());
    }
  }

  /** Sends a signal; what the program says and its code, which come within a second. */
  private static Program.Ended ended(Process pass, Signal signal, BufferedReader told)
      throws IOException, InterruptedException {
    long begun = System.nanoTime();
    signal.send(pass);
    assertThat(pass.waitFor(60, TimeUnit.SECONDS)).isTrue();
    long millis = (System.nanoTime() - begun) / 1_000_000;
    assertThat(millis).isLessThan(STOPPED_MILLIS);
    return new Program.Ended(pass.exitValue(), "", told.lines().collect(Collectors.joining("\n")));
  }

  /** Every scan of the pass has a reading of each step, in order, none twice. */
  private static void assertWhole(PassRecord pass) {
    assertThat(pass.open()).isFalse();
    for (PassRecord.ScanRecord scan : pass.scans()) {
      assertThat(scan.batches().stream().flatMap(b -> b.readings().stream()).map(Reading::index))
          .isEqualTo(
              IntStream.range(0, scan.plan().steps().size())
                  .mapToObj(i -> scan.plan().first() + i)
                  .toList());
    }
  }

  @Test
  void stopInMidScanTakesASecondAndTheRestIsReadInTheSameSeating()
      throws IOException, InterruptedException {
    Process pass = begin();
    try (BufferedReader told = pass.errorReader(UTF_8)) {
      awaitMiddle(pass);
      Program.Ended ended = ended(pass, Signal.TERM, told);

      assertThat(ended.code()).as(ended.err()).isEqualTo(6);
      assertThat(ended.err())
          .containsPattern("Stopped after [0-9]+ of [0-9]+ readings of scan [0-9]+\\.")
          .contains("Nothing is lost", "--resume")
          .doesNotContain("Exception");
      assertThat(Files.readString(folder.resolve("out"), UTF_8)).isEmpty();
    } finally {
      pass.destroyForcibly();
    }
    int scans = onlyPass().scans().size();

    assertThat(goOn().code()).isIn(0, 10, 11);
    assertWhole(onlyPass());
    assertThat(onlyPass().scans()).hasSizeGreaterThanOrEqualTo(scans);
    assertThat(onlyPass().seatings()).hasSize(1);
  }

  /** Reads on past what the pass says of the fixture itself. */
  private static void awaitFirstScan(BufferedReader told) throws IOException {
    String line = told.readLine();
    while (line != null && line.startsWith("FIXTURE")) {
      line = told.readLine();
    }
    assertThat(line).contains("Looking for voltages");
  }

  @Test
  void fixtureThatHasFallenSilentDoesNotHoldUpAStop() throws IOException, InterruptedException {
    Process pass = begin();
    try (BufferedReader told = pass.errorReader(UTF_8)) {
      awaitFirstScan(told);
      device.hang();
      Program.Ended ended = ended(pass, Signal.INT, told);

      assertThat(ended.code()).as(ended.err()).isEqualTo(6);
      assertThat(ended.err()).contains("Stopped", "--resume").doesNotContain("Exception");
    } finally {
      pass.destroyForcibly();
      device.goOn();
    }

    assertThat(goOn().code()).isIn(0, 10, 11);
    assertWhole(onlyPass());
    assertThat(onlyPass().seatings()).hasSize(1);
  }

  @Test
  void programThatIsKilledBetweenTwoScansAndThenInOneFindsItsSeatingAgain()
      throws IOException, InterruptedException {
    Process pass = begin();
    try (BufferedReader told = pass.errorReader(UTF_8)) {
      awaitFirstScan(told);
      assertThat(ended(pass, Signal.KILL, told).code()).isEqualTo(137);
    }
    assertThat(onlyPass().open()).isTrue();
    Process again = begin(device.port(), "--resume");
    try (BufferedReader told = again.errorReader(UTF_8)) {
      awaitMiddle(again);
      assertThat(ended(again, Signal.KILL, told).code()).isEqualTo(137);
    }
    assertThat(onlyPass().open()).isTrue();

    assertThat(goOn().code()).isIn(0, 10, 11);
    assertWhole(onlyPass());
    assertThat(onlyPass().seatings()).hasSize(1);
  }

  @Test
  void cableThatCracklesAndIsPulledAndPutBackCostsNothing()
      throws IOException, InterruptedException {
    try (Cable cable = device.cable()) {
      Process pass = begin(cable.port());
      try (BufferedReader told = pass.errorReader(UTF_8)) {
        awaitMiddle(pass);
        cable.crackle(new byte[] {0, 7, 1, 2, 3, 0, 9, 0});
        cable.pull();
        assertThat(pass.waitFor(700, TimeUnit.MILLISECONDS)).isFalse();
        cable.putBack();

        assertThat(pass.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(pass.exitValue()).as(told.lines().toList().toString()).isIn(0, 10, 11);
      } finally {
        pass.destroyForcibly();
      }
      assertThat(cable.used()).isGreaterThan(1);
    }
    assertWhole(onlyPass());
    assertThat(onlyPass().seatings()).hasSize(1);
  }

  @Test
  void stopWhileACableIsOutIsNotHeldUpByIt() throws IOException, InterruptedException {
    try (Cable cable = device.cable()) {
      Process pass = begin(cable.port());
      try (BufferedReader told = pass.errorReader(UTF_8)) {
        awaitMiddle(pass);
        cable.pull();
        assertThat(pass.waitFor(300, TimeUnit.MILLISECONDS)).isFalse();
        Program.Ended ended = ended(pass, Signal.INT, told);

        assertThat(ended.code()).as(ended.err()).isEqualTo(6);
        assertThat(ended.err()).contains("Stopped after", "--resume").doesNotContain("Exception");
      } finally {
        pass.destroyForcibly();
      }
    }
    assertThat(onlyPass().open()).isTrue();
  }

  @Test
  void lidThatWasOpenedMeanwhileIsAnotherSeatingOfTheSamePass()
      throws IOException, InterruptedException {
    Process pass = begin();
    try (BufferedReader told = pass.errorReader(UTF_8)) {
      awaitMiddle(pass);
      device.seatAgain();

      assertThat(pass.waitFor(60, TimeUnit.SECONDS)).isTrue();
      assertThat(pass.exitValue()).isEqualTo(6);
      assertThat(told.lines().collect(Collectors.joining("\n")))
          .contains("The lid was opened", "What was read stays good", "--resume");
    } finally {
      pass.destroyForcibly();
    }

    assertThat(goOn().code()).isIn(0, 10, 11);
    assertThat(onlyPass().open()).isFalse();
    assertThat(onlyPass().seatings()).hasSize(2);
  }

  @Test
  void anotherSetUpIsLaidInAndThenBothPassesHaveASeatingOfTheirOwn()
      throws IOException, InterruptedException {
    Program program = Program.built();
    assertThat(program.run(folder, pass(SET_UP, "--port", device.port())).code()).isIn(0, 10, 11);
    Program.Ended ended = program.run(folder, pass("upper-board", "--port", device.port()));

    assertThat(ended.code()).as(ended.err()).isIn(0, 10, 11);
    List<PassRecord> passes = job().passes();
    assertThat(passes).hasSize(2).allMatch(p -> !p.open());
    assertThat(passes.get(1).seatings().get(0).clamping().lid())
        .isEqualTo(passes.get(0).seatings().get(0).clamping().lid() + 1);
  }

  @Test
  void secondProgramOnTheSamePortOrJobIsToldSoAndTheFirstGoesOn()
      throws IOException, InterruptedException {
    Process pass = begin();
    try (BufferedReader told = pass.errorReader(UTF_8)) {
      awaitMiddle(pass);
      Program.Ended samePort =
          Program.built().run(folder, List.of("fixture", "find", "--port", device.port()));
      Program.Ended sameJob =
          Program.built()
              .run(
                  folder,
                  pass(
                      SET_UP,
                      "--stack",
                      Program.maps().resolve("saltmarsh-dropped.stack.json").toString()));

      assertThat(samePort.code()).as(samePort.err()).isEqualTo(3);
      assertThat(samePort.out()).contains("Another program is measuring with the fixture at");
      assertThat(sameJob.code()).as(sameJob.err()).isEqualTo(5);
      assertThat(sameJob.err())
          .contains("Another program is running a pass of J-0001", "Nothing was written");
      assertThat(pass.waitFor(60, TimeUnit.SECONDS)).isTrue();
      assertThat(pass.exitValue()).as(told.lines().toList().toString()).isIn(0, 10, 11);
    } finally {
      pass.destroyForcibly();
    }
    assertWhole(onlyPass());
  }

  @Test
  void logThatIsDeletedInMidPassEndsItWithWhatToDo() throws IOException, InterruptedException {
    Process pass = begin();
    try (BufferedReader told = pass.errorReader(UTF_8)) {
      awaitMiddle(pass);
      Path kept = Files.move(log(), folder.resolve("moved.db"));

      assertThat(pass.waitFor(60, TimeUnit.SECONDS)).isTrue();
      assertThat(pass.exitValue()).isEqualTo(5);
      assertThat(told.lines().collect(Collectors.joining("\n")))
          .contains("jobs.db was deleted, moved or replaced", "Put the file back")
          .doesNotContain("Exception");
      assertThat(Files.exists(log())).isFalse();
      Files.move(kept, log());
    } finally {
      pass.destroyForcibly();
    }

    assertThat(goOn().code()).isIn(0, 10, 11);
    assertWhole(onlyPass());
    assertThat(job().timeline()).filteredOn(l -> l.event() instanceof Event.PassBegun).hasSize(1);
  }

  @Test
  @NeedsTool("setpriv")
  void logThatIsReadOnlyTakesNoPassAndStaysReadable() throws IOException, InterruptedException {
    String stack = Program.maps().resolve("saltmarsh-good.stack.json").toString();
    String pass = "jointwalk " + String.join(" ", pass(SET_UP, "--stack", stack));
    // Permissions do not bind the superuser until it has given its powers away.
    String bound = Files.isWritable(Path.of("/")) ? "setpriv --bounding-set=-all " : "";
    byte[] before = Files.readAllBytes(log());
    Program.Ended ended =
        Program.built()
            .shell(
                folder,
                String.join(
                    "\n",
                    "chmod a-w jobs.db",
                    bound + pass + " || echo pass $?",
                    bound + "jointwalk job show --job 1 --log jobs.db > /dev/null || echo show $?",
                    "chmod u+w jobs.db"));

    assertThat(ended.out()).isEqualTo("pass 5\n");
    assertThat(ended.err())
        .contains(
            "The job log " + log() + " is read-only. Nothing was written.",
            "Make the file and its folder writable for you")
        .doesNotContain("Exception");
    assertThat(Files.readAllBytes(log())).isEqualTo(before);
  }

  @Test
  @NeedsTool("unshare")
  void fullDiskEndsAPassAndWithRoomItGoesOn() throws IOException, InterruptedException {
    assumeThat(Program.built().shell(folder, "unshare -rm true 2>&1").code())
        .as("a small disk can be mounted, which takes user namespaces")
        .isZero();
    String pass =
        "jointwalk pass --job 1 --set-up "
            + SET_UP
            + " --pads "
            + Program.maps().resolve("saltmarsh-s2.pads.json")
            + " --fixture "
            + Program.maps().resolve("saltmarsh-photo-relay.fixture.json")
            + " --stack "
            + Program.maps().resolve("saltmarsh-dropped.stack.json")
            + " --log small/jobs.db";
    Files.writeString(
        folder.resolve("full.sh"),
        String.join(
            "\n",
            "mkdir small",
            "mount -t tmpfs -o size=400k none small",
            "cp jobs.db small",
            pass + " || echo first $?",
            "jointwalk job show --job 1 --log small/jobs.db > /dev/null || echo show $?",
            "mount -o remount,size=50m small",
            pass + " --resume > /dev/null || echo resumed $?",
            "cp small/jobs.db* ."),
        UTF_8);
    Program.Ended ended = Program.built().shell(folder, "unshare -rm sh -eu full.sh 2>&1");

    assertThat(ended.out())
        .containsSubsequence(
            "The disk is full: there is no room for the job log",
            "every earlier one is. Make room and do it again.",
            "first 5",
            "resumed 1")
        .doesNotContain("Exception", "show");
    assertWhole(onlyPass());
  }
}
