package org.jointwalk.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class MapTest {

  @TempDir private Path folder = Path.of("");

  private Desk desk = new Desk(folder);
  private Path pads = folder;
  private Path fixture = folder;
  private Path stack = folder;
  private Path csv = folder;

  @BeforeEach
  void layOut() throws IOException {
    desk = new Desk(folder);
    pads = copy("saltmarsh-s2.pads.json");
    fixture = copy("saltmarsh-photo-relay.fixture.json");
    stack = copy("saltmarsh-dropped.stack.json");
    csv = folder.resolve("ring.csv");
  }

  private Path copy(String name) throws IOException {
    Path file = folder.resolve(name);
    try (InputStream in =
        Objects.requireNonNull(MapTest.class.getResourceAsStream("/fixture-maps/" + name))) {
      Files.copy(in, file);
    }
    return file;
  }

  private void spoil(Path file, String find, String with) throws IOException {
    String text = Files.readString(file, UTF_8);
    assertThat(text).contains(find);
    Files.writeString(file, text.replace(find, with), UTF_8);
  }

  /** Runs a part of {@code map} that has to succeed. */
  private void done(Object... words) {
    assertThat(run(words)).as(desk.err()).isZero();
    assertThat(desk.err()).isEmpty();
  }

  private int run(Object... words) {
    String[] arguments = new String[words.length + 1];
    arguments[0] = "map";
    for (int i = 0; i < words.length; i++) {
      arguments[i + 1] = words[i].toString();
    }
    return desk.run(arguments);
  }

  /** Runs a part of {@code map} that has to be refused as the user's input. */
  private void refused(Object... words) {
    assertThat(run(words)).as(desk.out()).isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.out()).isEmpty();
  }

  @Test
  void soundFilesAreShownInShort() {
    done("check", "--pads", pads, "--fixture", fixture, "--stack", stack);

    assertThat(desk.lines())
        .contains(pads + " is sound", fixture + " fits it", stack + " fits it", "No warning.");
    assertThat(desk.out().replaceAll(" +", " "))
        .contains(
            " model Saltmarsh S2, map revision 1",
            " positions 420",
            " main board: 1 ground, 17 rails,",
            " functions positions for charge 36, radio 69,",
            " interposer thick, 1 mm, mirrored, 2 ties over 97 positions",
            " own limits at 7 positions",
            " access points 40",
            " wired over 420 of 420 positions, under 420 of 420, 40 of 40 access points",
            " channels 880, none defective",
            " inside interposer thin, 8 defects, 2 outcomes, 2 troubles");
  }

  @Test
  void everyNetIsCountedInOneRole() throws IOException {
    done("check", "--pads", pads, "--json");

    JsonNode nets = new ObjectMapper().readTree(desk.out()).at("/pads/nets");
    int counted = 0;
    for (JsonNode board : nets) {
      for (JsonNode role : board) {
        counted += role.asInt();
      }
    }
    assertThat(counted).isEqualTo(422);
    done("to-csv", "--pads", pads, csv);
    assertThat(desk.out()).contains("420 positions and 422 nets");
  }

  @Test
  void scriptsGetTheSameFiguresAndTheWarnings() throws IOException {
    spoil(fixture, "under N001..N420", "under N001..N419");
    spoil(fixture, "840, \"contacts\"", "839, \"contacts\"");

    done("check", "--pads", pads, "--fixture", fixture, "--stack", stack, "--json");

    JsonNode all = new ObjectMapper().readTree(desk.out());
    assertThat(all.at("/pads/positions").asInt()).isEqualTo(420);
    assertThat(all.at("/pads/functions/1/function").asText()).isEqualTo("radio");
    assertThat(all.at("/pads/functions/1/positions").asInt()).isEqualTo(69);
    assertThat(all.at("/pads/interposers/1/tied_positions").asInt()).isEqualTo(97);
    assertThat(all.at("/pads/references/drop").asInt()).isEqualTo(303);
    assertThat(all.at("/fixtures/0/wired/over").asInt()).isEqualTo(420);
    assertThat(all.at("/fixtures/0/wired/under").asInt()).isEqualTo(419);
    assertThat(all.at("/fixtures/0/wired/points").asInt()).isEqualTo(40);
    assertThat(all.at("/stacks/0/defects").asInt()).isEqualTo(8);
    assertThat(all.at("/warnings")).hasSize(1);
    assertThat(all.at("/warnings/0/file").asText()).isEqualTo(fixture.toString());
    assertThat(all.at("/warnings/0/value").asText()).isEqualTo("N420");
  }

  @Test
  void doubtsStandApartAndStopNothing() throws IOException {
    spoil(pads, "\"role\": \"ground\"", "\"role\": \"signal\"");

    done("check", "--pads", pads);

    assertThat(desk.lines())
        .containsSubsequence(
            pads + " is sound",
            "Doubtful:",
            "  no net of the upper board has the role ground",
            "  no net of the lower board has the role ground");
    assertThat(desk.out()).endsWith("warnings." + System.lineSeparator());
  }

  @Test
  void allFaultsOfAllFilesAreToldFromTopToBottom() throws IOException {
    spoil(pads, "\"id\": \"N002\", \"x_mm\": 0,", "\"id\": \"N001\", \"x_mm\": \"0,5\",");
    spoil(
        pads,
        "\"name\": \"GROUND\", \"role\": \"ground\"",
        "\"name\": \"GROUND\", \"role\": \"x\"");
    spoil(fixture, "\"multiplexer\"", "\"multiplex\"");
    Path missing = folder.resolve("none.stack.json");

    refused("check", "--pads", pads, "--fixture", fixture, "--stack", missing, "--json");

    assertThat(desk.err().lines())
        .containsSubsequence(
            pads + ":31:12 (/positions/1/id)",
            "  the map has this position already",
            "  found:   \"N001\"",
            "  allowed: each position once",
            "  do:      Rename one; the other is at " + pads + ":30:5 (/positions/0)",
            "",
            pads + ":31:28 (/positions/1/x_mm)",
            "  do:      Write 0.5 without quotes, with a decimal point",
            pads + ":453:34 (/nets/upper/0/role)",
            "  allowed: ground, rail, signal, unused",
            pads + ":665:34 (/nets/lower/0/role)",
            "  do:      Did you mean \"multiplexer\"?",
            missing.toString(),
            "  there is no such file",
            "6 faults in 3 files. The files were not compared: first the pad map has to be sound.");
  }

  @Test
  void everyFileIsComparedWithThePadMap() throws IOException {
    spoil(pads, "\"device\": \"Saltmarsh S2\"", "\"device\": \"Saltmarsh S3\"");
    spoil(stack, "lower joint N128", "lower joint N928");
    Path other = copy("saltmarsh-four-bus.fixture.json");

    refused("check", "--pads", pads, "--fixture", fixture, "--fixture", other, "--stack", stack);

    assertThat(desk.err().lines())
        .containsSubsequence(
            fixture + ":4:13 (/device)",
            "  found:   \"Saltmarsh S2\"",
            "  allowed: \"Saltmarsh S3\"",
            other + ":4:13 (/device)",
            stack + ":8:25 (/defects/lower joint N928)",
            "  do:      Did you mean \"N028\"?",
            "3 faults in 3 files.");
  }

  @Test
  void controlCharactersOfAFileDoNotReachTheTerminal() throws IOException {
    spoil(pads, "\"N002\", \"x_mm\"", "\"\\u009b31mN002\", \u001b[31m\"x_mm\"");

    refused("check", "--pads", pads);

    assertThat(desk.err()).contains("[31m").doesNotContain("\u001b", "\u009b");
  }

  @Test
  void emptyFileNameIsShownAsSuch() {
    refused("check", "--pads", "");

    assertThat(desk.err()).startsWith("\"\"" + System.lineSeparator());
  }

  @Test
  void mapComesBackFromCsvByteForByte() {
    done("to-csv", "--pads", pads, csv);
    assertThat(desk.out())
        .contains(
            "Not in it, since CSV cannot carry it: names of the boards, 2 interposers with 4 ties,"
                + " limits of a good joint, 887 loads, 40 access points, 381 references.",
            "NEXT  keep " + pads);

    Path back = folder.resolve("back.pads.json");
    done("from-csv", csv, "--from", pads, "--pads", back);
    assertThat(desk.out()).contains("420 positions and 422 nets", "Taken from " + pads + ": names");
    assertThat(back).hasSameBinaryContentAs(pads);
  }

  @Test
  void newMapIsSoundAndSaysWhatItLacks() {
    done("to-csv", "--pads", pads, csv);
    Path made = folder.resolve("new.pads.json");

    done("from-csv", csv, "--device", "  Saltmarsh S3 ", "--pads", made);

    assertThat(desk.out()).contains("CSV carries positions and nets only", "1 warning.");
    done("check", "--pads", made);
    assertThat(desk.out().replaceAll(" +", " ")).contains(" model Saltmarsh S3", " positions 420");
  }

  @Test
  void existingFileIsReplacedOnlyWhenAsked() throws IOException {
    Files.writeString(csv, "precious", UTF_8);
    refused("to-csv", "--pads", pads, csv);
    assertThat(desk.err()).contains(csv + " is there already", "--force");
    assertThat(csv).hasContent("precious");

    done("to-csv", "--pads", pads, csv, "--force");
    assertThat(csv).content(UTF_8).startsWith("id,x_mm,y_mm,upper_net");

    refused("from-csv", csv, "--device", "Saltmarsh S3", "--pads", pads);
    assertThat(desk.err()).contains(pads + " is there already", "--force");
    assertThat(Files.size(pads)).isGreaterThan(200_000);

    done("from-csv", csv, "--device", "Saltmarsh S3", "--pads", pads, "--force");
    assertThat(Files.size(pads)).isLessThan(200_000);
    assertThat(folder).isDirectoryNotContaining("glob:**.part*");
  }

  @Test
  void fileThatIsReadIsNeverWritten() throws IOException {
    done("to-csv", "--pads", pads, csv);
    String before = Files.readString(csv, UTF_8);

    refused("from-csv", csv, "--device", "Saltmarsh S3", "--pads", csv, "--force");
    assertThat(desk.err()).contains(csv + " is what the command reads");
    refused("to-csv", "--pads", pads, pads, "--force");
    assertThat(desk.err()).contains(pads + " is what the command reads");

    assertThat(csv).content(UTF_8).isEqualTo(before);
  }

  @Test
  void faultyCsvWritesNothing() throws IOException {
    Path made = folder.resolve("new.pads.json");
    Files.writeString(csv, "id,x_mm,y_mm,upper_net\nN001,0,zero,G\n", UTF_8);

    refused("from-csv", csv, "--device", "Saltmarsh S3", "--pads", made);

    assertThat(desk.err().lines())
        .containsSubsequence(
            csv + ":1 (lower_net)", "  the column \"lower_net\" is missing", "1 fault.");
    assertThat(made).doesNotExist();
  }

  @Test
  void csvNeedsAMapOrAModelForTheRest() {
    done("to-csv", "--pads", pads, csv);
    Path made = folder.resolve("new.pads.json");

    refused("from-csv", csv, "--pads", made);
    assertThat(desk.err()).contains("--from", "--device");
    refused("from-csv", csv, "--pads", made, "--from", pads, "--device", "Saltmarsh S3");
    assertThat(desk.err()).contains("not both");
    refused("from-csv", csv, "--pads", made, "--device", "Salt\nmarsh");
    assertThat(desk.err()).contains("on one line");
    assertThat(made).doesNotExist();
  }

  @Test
  void placeThatCannotTakeTheFileIsNamed() {
    refused("to-csv", "--pads", pads, folder);
    assertThat(desk.err()).contains(folder + " is a folder");

    Path nowhere = folder.resolve("nowhere");
    refused("to-csv", "--pads", pads, nowhere.resolve("ring.csv"));
    assertThat(desk.err()).contains("There is no folder " + nowhere);
  }
}
