package org.jointwalk.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.UnaryOperator;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.job.Logged;
import org.jointwalk.job.PassRecord;
import org.jointwalk.joblog.SqliteJobLog;
import org.jointwalk.link.Served;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * A pass in bad weather, as the technician meets it: what is told, with which number the program
 * ends, and that nothing is lost.
 */
class BadWeatherTest {

  private static final String MAPS = "../fixture-maps/";
  private static final String PHOTO_RELAY = "saltmarsh-photo-relay";
  private static final String ON_LOWER = "interposer-on-lower";

  /** As it stands in the stack file. */
  private static final String CHARGED =
      "RAIL_QUILL_A\": {\"is\": \"charged\", \"volts\": 1.1, \"ohms\": 120";

  @TempDir Path home = Path.of("");

  private Desk desk = new Desk(home);

  /**
   * What may stand at a port, with what is told of it. Each says what, how much, and what to do.
   */
  enum AtThePort {
    SILENT(
        Served::silent,
        PHOTO_RELAY,
        ExitCode.FIXTURE,
        "does not answer: asked 7 times in 2100 ms",
        "has power and whether this is its port"),
    ANOTHER_PROGRAM(
        served -> served.saying("220 harbour mail ready\r\n"),
        PHOTO_RELAY,
        ExitCode.FIXTURE,
        "bytes that make no sense",
        "Another device is there, or it runs at another rate than 115200 baud"),
    GARBAGE(
        served -> served.saying("\0\1\2\0\0\3\5\0"),
        PHOTO_RELAY,
        ExitCode.FIXTURE,
        "bytes that make no sense",
        "Another device is there"),
    BUSY(
        Served::busy,
        PHOTO_RELAY,
        ExitCode.FIXTURE,
        "Another program is measuring with the fixture at tcp:",
        "Wait until its pass is over, or stop it."),
    ANOTHER_VERSION(
        served -> served.ofVersion(3),
        PHOTO_RELAY,
        ExitCode.FIXTURE,
        "speaks version 3 to 3 of the protocol, this program version 1",
        "brought up to date"),
    ANOTHER_FIXTURE(
        served -> served,
        "saltmarsh-relay-matrix",
        ExitCode.FIXTURE,
        "says identity \"",
        "Give the map of this fixture, or correct the map."),
    TOO_FEW_CHANNELS(
        served -> served.withChannels(64),
        PHOTO_RELAY,
        ExitCode.FIXTURE,
        "has 64 channels, the map",
        "plug its missing boards in"),
    STUCK_SWITCH(
        Served::withAStuckSwitch,
        PHOTO_RELAY,
        ExitCode.FIXTURE,
        "a connection between its own buses",
        "Take the parts out"),
    REFUSED_STEP(
        served -> served.refusing(3),
        PHOTO_RELAY,
        ExitCode.SAFETY,
        "The fixture refuses step 3 of the scan",
        "Nothing was sourced for it",
        "the right maps were named",
        "battery is out"),
    OPEN_LID(
        Served::opened,
        PHOTO_RELAY,
        ExitCode.INTERRUPTED,
        "The lid is open. Close it, then run the same command with --resume."),
    LID_OPENED_IN_MID_PASS(
        served -> served.opensItsLidAt(3),
        PHOTO_RELAY,
        ExitCode.INTERRUPTED,
        "The lid was opened: this seating is over. What was read stays good.",
        "--resume");

    private final UnaryOperator<Served> weather;
    private final String map;
    private final ExitCode code;
    private final List<String> told;

    AtThePort(UnaryOperator<Served> weather, String map, ExitCode code, String... told) {
      this.weather = weather;
      this.map = map;
      this.code = code;
      this.told = List.of(told);
    }
  }

  /** What a stack may have in it that nobody should measure, or that only looks like it. */
  enum OnTheBoard {
    CHARGED_RAIL(CHARGED, ExitCode.SAFETY, "RAIL_QUILL_A", " V", "battery", "resistor"),
    LIGHT(
        "PERCH_X1\": {\"is\": \"charged\", \"volts\": 0.3, \"ohms\": 1000000",
        ExitCode.GOOD,
        "PERCH_X1 shows 0.30 V ",
        "that a light load takes away: light or leakage; close the lid");

    private final String condition;
    private final ExitCode code;
    private final List<String> told;

    OnTheBoard(String condition, ExitCode code, String... told) {
      this.condition = condition;
      this.code = code;
      this.told = List.of(told);
    }
  }

  private Path file() {
    return home.resolve("jobs.db");
  }

  private SqliteJobLog log() {
    return new SqliteJobLog(file(), InstantSource.fixed(Desk.NOON), Desk.ZONE);
  }

  @BeforeEach
  void openJob() {
    desk =
        new Desk(home)
            .with("JOINTWALK_LOG", file().toString())
            .withLogs(path -> new SqliteJobLog(path, InstantSource.fixed(Desk.NOON), Desk.ZONE));
    assertThat(desk.run("job", "open", "--device", "Saltmarsh S2", "--fails", "radio")).isZero();
    desk.done("job action split --job 1 --let-go upper --log " + file());
  }

  private int pass(String map, String... more) {
    return passOf("1", map, more);
  }

  private int passOf(String job, String map, String... more) {
    List<String> words =
        new ArrayList<>(
            List.of(
                "pass",
                "--job",
                job,
                "--set-up",
                ON_LOWER,
                "--pads",
                MAPS + "saltmarsh-s2.pads.json",
                "--fixture",
                MAPS + map + ".fixture.json"));
    words.addAll(List.of(more));
    return desk.run(words.toArray(String[]::new));
  }

  private int virtual(String... more) {
    return virtualOf("1", more);
  }

  private int virtualOf(String job, String... more) {
    List<String> words = new ArrayList<>(List.of("--stack", MAPS + "saltmarsh-good.stack.json"));
    words.addAll(List.of(more));
    return passOf(job, PHOTO_RELAY, words.toArray(String[]::new));
  }

  private List<Logged> logged() {
    try (SqliteJobLog log = log()) {
      return log.read("J-0001");
    }
  }

  private Job job() {
    return Job.fold("J-0001", logged());
  }

  private void assertTold(List<String> words) {
    assertThat(desk.err()).contains(words).doesNotContain("Exception", "\tat ", "defect");
    assertThat(desk.out()).isEmpty();
  }

  /** The log opens, and the pass goes on to its end where it was left. */
  private void assertNothingIsLost() {
    List<Logged> before = logged();
    assertThat(desk.run("job", "show", "--job", "1")).as(desk.err()).isZero();
    assertThat(virtual("--resume")).as(desk.err()).isZero();
    assertThat(logged()).startsWith(before.toArray(new Logged[0]));
    assertThat(job().passes()).hasSize(1).noneMatch(PassRecord::open);
  }

  @ParameterizedTest
  @EnumSource
  void whatStandsAtThePortIsToldAndNothingIsLost(AtThePort row) throws IOException {
    try (Served served = row.weather.apply(Served.here())) {
      assertThat(pass(row.map, "--port", served.port()))
          .as(desk.err())
          .isEqualTo(row.code.number());
    }
    assertTold(row.told);
    assertNothingIsLost();
  }

  @ParameterizedTest
  @EnumSource
  void whatCarriesAVoltageIsNamed(OnTheBoard row) throws IOException {
    String charged = Files.readString(Path.of(MAPS + "saltmarsh-charged.stack.json"), UTF_8);
    assertThat(charged).contains(CHARGED);
    Path stack =
        Files.writeString(
            home.resolve("on-the-board.stack.json"),
            charged.replace(CHARGED, row.condition),
            UTF_8);

    int code = pass(PHOTO_RELAY, "--stack", stack.toString());

    assertThat(desk.err()).contains(row.told).doesNotContain("Exception");
    assertThat(code).isEqualTo(row.code.number());
    PassRecord pass = job().passes().get(0);
    assertThat(pass.open()).isEqualTo(row.code == ExitCode.SAFETY);
    if (pass.open()) {
      assertThat(pass.scans()).as("nothing but voltages was read").hasSizeLessThan(5);
      // The voltage stays on the record; what was bled is another pass.
      assertThat(virtual()).as(desk.err()).isZero();
      assertThat(job().passes()).extracting(PassRecord::open).containsExactly(true, false);
    }
  }

  @Test
  void lockedLogIsNamedAndServesAgainWhenItIsFree() throws SQLException {
    try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + file());
        Statement statement = other.createStatement()) {
      statement.execute("BEGIN IMMEDIATE");
      assertThat(virtual()).isEqualTo(ExitCode.JOB_LOG.number());
      assertTold(
          List.of(
              "The job log " + file() + " is locked by another program (waited 5.0 s)",
              "Nothing was written",
              "Close what else has it open"));
      statement.execute("ROLLBACK");
    }
    assertNothingIsLost();
  }

  @Test
  void jobThatIsInAnotherProgramsHandsIsNotTouched() throws IOException {
    List<Logged> before = logged();
    try (Jobs other = new Jobs(log(), file())) {
      other.takeTurn(job());
      assertThat(virtual()).isEqualTo(ExitCode.JOB_LOG.number());
      assertTold(
          List.of(
              "Another program is running a pass of J-0001. Nothing was written.",
              "Wait until it is over, or stop it there"));
      assertThat(logged()).isEqualTo(before);
      assertThat(desk.run("job", "open", "--device", "Saltmarsh S2")).isZero();
      assertThat(desk.run("job", "note", "--job", "1", "smells of the sea")).isZero();
    }
    assertNothingIsLost();
  }

  /** Times are only shown; what orders the entries is their number. */
  @Test
  void clockThatIsSetBackAnHourChangesNoResult() {
    assertThat(virtual("--json")).isZero();
    String expected = desk.out();
    desk.run("job", "open", "--device", "Saltmarsh S2");
    desk.done("job action split --job 2 --let-go upper --log " + file());
    AtomicInteger asked = new AtomicInteger();
    InstantSource back =
        () ->
            asked.incrementAndGet() < 12
                ? Desk.NOON.plusSeconds(asked.get())
                : Desk.NOON.minus(Duration.ofHours(1)).plusSeconds(asked.get());
    desk.withClock(back).withLogs(path -> new SqliteJobLog(path, back, Desk.ZONE)).onATerminal();

    assertThat(virtualOf("2", "--json")).as(desk.err()).isZero();

    assertThat(asked).hasValueGreaterThan(24);
    assertThat(desk.out()).isEqualToIgnoringWhitespace(expected.replace("J-0001", "J-0002"));
    assertThat(desk.run("job", "show", "--job", "2")).isZero();
    assertThat(desk.run("verdict", "--job", "2")).isZero();
  }

  @Test
  void stopThatComesBeforeThePassLeavesTheLogAsItWas() {
    desk.withStops(stop -> stop.ifPresent(Runnable::run));
    List<Logged> before = logged();

    assertThat(virtual()).isEqualTo(ExitCode.INTERRUPTED.number());

    assertTold(List.of("Stopped before anything was read", "Nothing is lost", "--resume"));
    assertThat(logged()).isEqualTo(before);
    desk.withStops(stop -> {});
    assertNothingIsLost();
  }

  private static Event asOf(String version, Event event) {
    if (event instanceof Event.PassGraded g) {
      return new Event.PassGraded(g.pass(), g.findings(), version);
    }
    return event instanceof Event.Judged j ? new Event.Judged(j.verdict(), version) : event;
  }

  @Test
  void programThatWasUpgradedBetweenTwoRunsGoesOnAndSignsWithItsOwnVersion() throws IOException {
    assertThat(virtual()).isZero();
    assertThat(virtual()).isZero();
    List<Event> older = logged().stream().map(l -> asOf("0.0.7", l.event())).toList();
    int cut = older.size() - 4;
    assertThat(older.get(cut)).isInstanceOf(Event.BatchKept.class);
    Path old = home.resolve("old.db");
    try (SqliteJobLog log = new SqliteJobLog(old, InstantSource.fixed(Desk.NOON), Desk.ZONE)) {
      log.append("J-0001", 0, older.subList(0, cut));
    }

    assertThat(virtual("--resume", "--log", old.toString())).as(desk.err()).isZero();

    try (SqliteJobLog log = new SqliteJobLog(old, InstantSource.fixed(Desk.NOON), Desk.ZONE)) {
      List<Event> events = log.read("J-0001").stream().map(Logged::event).toList();
      assertThat(events).startsWith(older.subList(0, cut).toArray(new Event[0]));
      assertThat(events)
          .filteredOn(Event.PassGraded.class::isInstance)
          .extracting(e -> ((Event.PassGraded) e).program())
          .containsExactly("0.0.7", Version.number());
      assertThat(Job.fold("J-0001", log.read("J-0001")).passes()).hasSize(2);
    }
  }
}
