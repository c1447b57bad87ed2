package org.jointwalk.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class WatchCommandTest {

  private static final String MAPS = "../fixture-maps/";

  @TempDir Path home;

  private Desk desk;

  @BeforeEach
  void openJob() {
    desk = new Desk(home);
    desk.run("job", "open", "--device", "Saltmarsh S2", "--fails", "radio");
    desk.run("job", "action", "split", "--job", "1", "--let-go", "upper");
  }

  private int watch(String setUp, String defects, String... more) throws IOException {
    Path stack = home.resolve("flicker.stack.json");
    Files.writeString(
        stack,
        "{\"format\":\"jointwalk stack 1\",\"pads\":\"saltmarsh-s2.pads.json\","
            + "\"variant\":\"thin\",\"seed\":5,\"defects\":"
            + defects
            + "}",
        StandardCharsets.UTF_8);
    List<String> words =
        new ArrayList<>(
            List.of(
                "watch",
                "--job",
                "1",
                "--set-up",
                setUp,
                "--pads",
                MAPS + "saltmarsh-s2.pads.json",
                "--fixture",
                MAPS + "saltmarsh-photo-relay.fixture.json",
                "--stack",
                stack.toString()));
    words.addAll(List.of(more));
    return desk.run(words.toArray(String[]::new));
  }

  private static final String FLICKER =
      "{\"lower joint N122\":{\"is\":\"intermittent\",\"ohms\":0.01,\"period_s\":1,\"open_s\":0.2}}";

  @Test
  void jointThatDropsOutIsNamedWithWhatToDo() throws Exception {
    assertThat(
            watch(
                "interposer-on-lower",
                FLICKER,
                "--seconds",
                "10",
                "--pad",
                "N122",
                "--pad",
                "N128"))
        .as(desk.err())
        .isEqualTo(ExitCode.FAULT_FOUND.number());

    assertThat(desk.out())
        .startsWith("1 OF 2 DROPS OUT: N122")
        .contains("NEXT", "SMALLEST", "under clamp pressure");
    assertThat(desk.err()).contains("N122 DROPPED OUT", "N122 is back").doesNotContain("\u0007");
    assertThat(desk.run("job", "show", "--job", "1")).isZero();
    assertThat(desk.out()).contains("Watch 1, interposer-on-lower", "1 OF 2 DROPS OUT: N122");
    desk.run("job", "show", "--job", "1", "--json");
    assertThat(desk.out()).contains("\"watches\" : [", "\"dropouts\" : 10");
  }

  @Test
  void soundJointsEndWithZeroAndOneObject() throws Exception {
    assertThat(watch("interposer-on-lower", "{}", "--seconds", "5", "--pad", "N122", "--json"))
        .as(desk.err())
        .isZero();

    assertThat(desk.out()).startsWith("{").contains("\"certain_s\"", "\"finished\" : true");
  }

  @Test
  void somebodyAtTheTerminalHearsEachDropoutAndTypesNotes() throws Exception {
    Iterator<String> typed = List.of("pressing left corner").iterator();
    desk.typing(() -> typed.hasNext() ? Optional.of(typed.next()) : Optional.empty());

    watch("interposer-on-lower", FLICKER, "--seconds", "60", "--pad", "N122");

    assertThat(desk.err()).contains("\u0007", "keep a note");
    watch("interposer-on-lower", FLICKER, "--seconds", "10", "--pad", "N122", "--no-tone");
    assertThat(desk.err()).contains("N122 DROPPED OUT").doesNotContain("\u0007");
  }

  @Test
  void suspectsAreThoseOfTheLastPass() throws Exception {
    List<String> pass =
        List.of(
            "pass",
            "--job",
            "1",
            "--set-up",
            "interposer-on-lower",
            "--pads",
            MAPS + "saltmarsh-s2.pads.json",
            "--fixture",
            MAPS + "saltmarsh-photo-relay.fixture.json",
            "--stack",
            MAPS + "saltmarsh-dropped.stack.json");
    desk.run(pass.toArray(String[]::new));

    watch(
        "interposer-on-lower",
        "{\"lower joint N128\":{\"is\":\"open\"}}",
        "--seconds",
        "3",
        "--json");

    assertThat(desk.out()).contains("\"position\" : \"N128\"", "\"out_at_end\" : true");
    assertThat(desk.err()).contains("N128 DROPPED OUT");
  }

  @Test
  void nothingToWatchIsTheUsersToSay() throws Exception {
    assertThat(watch("interposer-on-lower", "{}", "--seconds", "3"))
        .isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err()).contains("--pad N014");
    assertThat(watch("joined", "{}", "--pad", "N122")).isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err()).contains("no plate touches a joint");
    assertThat(watch("interposer-on-lower", "{}", "--pad", "N999"))
        .isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err()).contains("no pad N999");
  }
}
