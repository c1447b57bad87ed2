package org.jointwalk.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DemoTest {

  private static final Pattern RESULT = Pattern.compile("^ *([0-9]+)  [a-z].*");

  @TempDir Path home;

  /** The text of the demo's pass with the interposer on the lower board. */
  static List<String> interposerOnLower(Desk desk) {
    assertThat(desk.run("demo")).as(desk.err()).isZero();
    List<String> pass = new ArrayList<>();
    boolean inside = false;
    for (String line : desk.lines()) {
      if (line.startsWith("J-0001") && line.contains("the interposer on the lower board")) {
        inside = true;
      } else if (line.startsWith("-----") && inside) {
        return pass.subList(0, pass.size() - 1);
      }
      if (inside) {
        pass.add(line);
      }
    }
    throw new AssertionError("the demo showed no such pass");
  }

  @Test
  void storyGoesFromIntakeToClosing() {
    Desk desk = new Desk(home);

    assertThat(desk.run("demo")).as(desk.err()).isZero();

    assertThat(desk.out())
        .containsSubsequence(
            "$ jointwalk job open",
            "$ jointwalk job action split",
            "--set-up upper-board",
            "THE UPPER BOARD ALONE SHOWS NO FAULT",
            "upper joints that came in were lost by the split",
            "--set-up interposer-on-lower",
            "lower joint at N129, N131",
            "undecided between lower joint, pad of the main board (lower) and",
            "path inside the interposer at N122, N128, N132, N133, N135, N149",
            "radio: what was found fits",
            "Lift the interposer",
            "    7  no path                       no current passed; confirmed",
            "    0  bridged",
            "N149 4.2",
            "--set-up lower-board",
            "located: pad of the main board (lower) at N132",
            "--set-up interposer",
            "probably: lower joint at N122, N128, N133, N135, N149",
            "NOT YET: TOUCH UP N110-N111, N138",
            "THIS SIDE TOOK",
            "THE UPPER SIDE DOES NOT EXIST YET",
            "J-0001  closed");
    assertThat(desk.err())
        .contains(
            "Seated again to tell joints from contacts: N020, N122, N128, N129, N131, N132, N133,"
                + " N135, N149, N260.");
  }

  @Test
  void resultLinesAddUpToThePositions() {
    int sum = 0;
    for (String line : interposerOnLower(new Desk(home))) {
      var matcher = RESULT.matcher(line);
      if (matcher.matches()) {
        sum += Integer.parseInt(matcher.group(1));
      }
    }
    assertThat(sum).isEqualTo(420);
  }

  @Test
  void pictureOfTheReadmeShowsWhatTheDemoShows() throws IOException {
    String shown = Files.readString(Path.of("guide", "pass.svg"), StandardCharsets.UTF_8);

    assertThat(shown).isEqualTo(PassPicture.draw(interposerOnLower(new Desk(home))));
  }

  @Test
  void everyPassReplaysAsItWasSealed() {
    Desk desk = new Desk(home);
    assertThat(desk.run("demo")).isZero();

    assertThat(desk.run("job", "replay", "--job", "1")).as(desk.out()).isZero();

    assertThat(desk.lines()).hasSize(6).allMatch(line -> line.contains("the same as sealed"));
  }

  @Test
  void demoDoesNotTouchAnExistingLog() throws IOException {
    Path log = Files.writeString(home.resolve("mine.db"), "precious");
    Desk desk = new Desk(home);

    assertThat(desk.run("demo", "--log", log.toString())).isEqualTo(ExitCode.INPUT.number());

    assertThat(desk.err()).contains("is there already");
    assertThat(log).hasContent("precious");
  }
}
