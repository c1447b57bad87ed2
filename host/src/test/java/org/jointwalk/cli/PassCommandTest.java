package org.jointwalk.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jointwalk.job.Job;
import org.jointwalk.job.Logged;
import org.jointwalk.link.Served;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PassCommandTest {

  private static final String MAPS = "../fixture-maps/";

  @TempDir Path home;

  private Desk desk;

  @BeforeEach
  void openJob() {
    desk = new Desk(home);
    assertThat(
            desk.run(
                "job",
                "open",
                "--device",
                "Saltmarsh S2",
                "--happened",
                "dropped",
                "--fails",
                "radio"))
        .isZero();
  }

  private int pass(String setUp, String stack, String... more) {
    List<String> words =
        new ArrayList<>(
            List.of(
                "pass",
                "--job",
                "1",
                "--set-up",
                setUp,
                "--pads",
                MAPS + "saltmarsh-s2.pads.json",
                "--fixture",
                MAPS + "saltmarsh-photo-relay.fixture.json",
                "--stack",
                MAPS + stack + ".stack.json"));
    words.addAll(List.of(more));
    return desk.run(words.toArray(String[]::new));
  }

  private void split() {
    assertThat(desk.run("job", "action", "split", "--job", "1", "--let-go", "upper")).isZero();
  }

  @Test
  void goodStackEndsWithZero() {
    split();

    assertThat(pass("interposer-on-lower", "saltmarsh-good")).as(desk.err()).isZero();
  }

  @Test
  void brokenStackEndsWithTenAndOneObject() {
    split();

    assertThat(pass("interposer-on-lower", "saltmarsh-dropped", "--json"))
        .isEqualTo(ExitCode.FAULT_FOUND.number());

    assertThat(desk.lines()).hasSize(1);
    assertThat(desk.out())
        .startsWith(
            "{\"format\":\"jointwalk pass result 1\",\"job\":\"J-0001\",\"pass\":1,"
                + "\"setUp\":\"interposer-on-lower\",\"purpose\":\"diagnosis\",\"seating\":")
        .contains("\"bridges\":[]", "\"counts\":{\"good\":", "\"readings\":", "\"closures\":");
    assertThat(desk.err()).contains("Walking the pads");
  }

  @Test
  void setUpThatCannotBeThereYetNamesTheMissingAction() {
    assertThat(pass("interposer-on-lower", "saltmarsh-good")).isEqualTo(ExitCode.INPUT.number());

    assertThat(desk.err()).contains("job action split --let-go upper");
    assertThat(desk.out()).isEmpty();
  }

  @Test
  void everySetUpOfASplitStackRuns() {
    assertThat(pass("joined", "saltmarsh-good")).as(desk.err()).isZero();
    split();
    assertThat(pass("upper-board", "saltmarsh-good")).as(desk.err()).isZero();
    assertThat(desk.run("job", "action", "lift", "--job", "1")).isZero();
    assertThat(pass("lower-board", "saltmarsh-good")).as(desk.err()).isZero();
    assertThat(pass("interposer", "saltmarsh-good")).as(desk.err()).isZero();
    assertThat(desk.run("job", "action", "reball", "--job", "1", "--side", "upper")).isZero();
    assertThat(pass("interposer-on-upper", "saltmarsh-good")).as(desk.err()).isZero();
  }

  @Test
  void chargedRailIsRefusedWithItsVoltage() {
    split();

    assertThat(pass("interposer-on-lower", "saltmarsh-charged"))
        .isEqualTo(ExitCode.SAFETY.number());

    assertThat(desk.err()).contains("RAIL_QUILL_A", " V", "battery", "resistor");
  }

  @Test
  void unknownSetUpListsTheKnownOnes() {
    assertThat(pass("upside-down", "saltmarsh-good")).isEqualTo(ExitCode.INPUT.number());

    assertThat(desk.err()).contains("upside-down", "interposer-on-lower", "upper-board");
  }

  @Test
  void unknownPortIsRefusedWithWhatThereIs() {
    split();

    assertThat(pass("upper-board", "saltmarsh-good", "--port", "ttyX"))
        .isEqualTo(ExitCode.INPUT.number());

    assertThat(desk.err()).contains("ttyX", "--port virtual");
  }

  @Test
  void sameSeedGivesTheSameResultAndAnotherSeedOtherReadings() {
    split();
    pass("upper-board", "saltmarsh-good", "--seed", "5");
    pass("upper-board", "saltmarsh-good", "--seed", "6");
    Job job = Job.fold("J-0001", logged());
    assertThat(job.passes().get(0).measurements())
        .hasSameSizeAs(job.passes().get(1).measurements())
        .isNotEqualTo(job.passes().get(1).measurements());
  }

  private List<Logged> logged() {
    return desk.log().read("J-0001");
  }

  @Test
  void verdictSaysWhatToDoNext() {
    split();
    pass("interposer-on-lower", "saltmarsh-dropped");

    assertThat(desk.run("verdict", "--job", "1")).isEqualTo(ExitCode.FAULT_FOUND.number());

    assertThat(desk.out())
        .contains("NEXT", "Measure the upper board alone", "NOT SEEN", "clamp pressure");
  }

  @Test
  void verdictBeforeAnyPassSaysToMeasure() {
    assertThat(desk.run("verdict", "--job", "1")).isEqualTo(ExitCode.INPUT.number());

    assertThat(desk.err()).contains("no pass yet", "jointwalk pass --job J-0001");
  }

  private int passAt(String port) {
    return desk.run(
        "pass",
        "--job",
        "1",
        "--set-up",
        "upper-board",
        "--pads",
        MAPS + "saltmarsh-s2.pads.json",
        "--fixture",
        MAPS + "saltmarsh-photo-relay.fixture.json",
        "--port",
        port);
  }

  @Test
  void portThatCannotBeOpenedIsTheFixturesFailure() {
    split();

    assertThat(passAt("/dev/no-such-tty")).isEqualTo(ExitCode.FIXTURE.number());

    assertThat(desk.err()).contains("No port /dev/no-such-tty", "fixture find");
  }

  @Test
  void busyFixtureIsTheFixturesFailure() throws Exception {
    split();

    try (Served served = Served.here().busy()) {
      assertThat(passAt(served.port())).isEqualTo(ExitCode.FIXTURE.number());
    }

    assertThat(desk.err()).contains("Another program is measuring with the fixture");
  }

  @Test
  void openLidIsAnInterruption() throws Exception {
    split();

    try (Served served = Served.here().opened()) {
      assertThat(passAt(served.port())).isEqualTo(ExitCode.INTERRUPTED.number());
    }

    assertThat(desk.err()).contains("The lid is open. Close it", "--resume");
  }
}
