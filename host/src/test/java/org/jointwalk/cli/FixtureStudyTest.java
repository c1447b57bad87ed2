package org.jointwalk.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jointwalk.job.FixtureEvent;
import org.jointwalk.job.FixtureRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FixtureStudyTest {

  private static final String MAPS = "../fixture-maps/";

  @TempDir Path home;

  private int study(Desk desk, String... more) {
    List<String> words =
        new ArrayList<>(
            List.of(
                "fixture",
                "study",
                "--pads",
                MAPS + "saltmarsh-s2.pads.json",
                "--fixture",
                MAPS + "saltmarsh-photo-relay.fixture.json",
                "--stack",
                MAPS + "saltmarsh-good.stack.json"));
    words.addAll(List.of(more));
    return desk.run(words.toArray(String[]::new));
  }

  @Test
  void threePeopleThreeTimesGiveWhatTheProbesSpread() {
    Desk desk = new Desk(home);

    assertThat(study(desk, "--operators", "AB,CD,EF")).as(desk.err()).isZero();

    assertThat(desk.out()).contains("FIT for a signal's joint", "repeatability", "NEXT");
    assertThat(desk.err()).contains("EF clamps, 9 of 9.");
    FixtureRecord record = FixtureRecord.read(desk.log(), identity(desk));
    FixtureEvent.Studied studied = record.of(FixtureEvent.Studied.class).get(0);
    assertThat(record.of(FixtureEvent.Clamped.class)).hasSize(9);
    assertThat(studied.gauge().positions()).hasSize(10);
    // Two probe contacts of 10 mohm each, and switches that stay the same.
    assertThat(studied.gauge().anova().repeatability()).isBetween(0.008, 0.025);
    assertThat(studied.gauge().ranges().repeatability())
        .isBetween(
            0.7 * studied.gauge().anova().repeatability(),
            1.4 * studied.gauge().anova().repeatability());
  }

  private static String identity(Desk desk) {
    return desk.log().fixtures().get(0).substring(FixtureRecord.stream("").length());
  }

  @Test
  void jsonIsOneObject() {
    Desk desk = new Desk(home);

    assertThat(study(desk, "--operators", "AB", "--seatings", "2", "--json")).isZero();

    assertThat(desk.out())
        .startsWith("{")
        .contains("jointwalk gauge study 1", "\"gauge_percent\"", "\"fitness\" : \"fit\"");
  }

  @Test
  void wrongNumbersAreTheUsersToPutRight() {
    Desk desk = new Desk(home);

    assertThat(study(desk, "--operators", "AB", "--seatings", "1"))
        .isEqualTo(ExitCode.INPUT.number());
    assertThat(study(desk, "--operators", "AB", "--pad", "N999"))
        .isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err()).contains("N999");
  }
}
