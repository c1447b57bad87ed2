package org.jointwalk.program;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The commands that check and convert maps, on the files that are delivered. */
class MapsIT {

  @TempDir private Path folder = Path.of("");

  private final Program program = Program.built();

  @Test
  void examplesInTheHelpWork() throws IOException, InterruptedException {
    Path maps = Files.createDirectory(folder.resolve("fixture-maps"));
    copy("saltmarsh-s2.pads.json", maps.resolve("saltmarsh-s2.pads.json"));
    copy("saltmarsh-s2.pads.json", folder.resolve("s2.pads.json"));
    copy("saltmarsh-photo-relay.fixture.json", folder.resolve("bench.fixture.json"));

    int examples = 0;
    for (String part : List.of("", "check", "to-csv", "from-csv")) {
      Program.Ended help = program.shell(folder, "jointwalk map " + part + " --help");
      for (String line : help.out().lines().filter(l -> l.startsWith("  jointwalk ")).toList()) {
        Program.Ended ended = program.shell(folder, line.strip());
        assertThat(ended.code()).as(line + ended.err()).isZero();
        assertThat(ended.err()).isEmpty();
        examples++;
      }
    }

    assertThat(examples).isEqualTo(6);
    assertThat(folder.resolve("s2-b.pads.json"))
        .as("what comes back from the spreadsheet")
        .hasSameBinaryContentAs(folder.resolve("s2.pads.json"));
  }

  @Test
  void everyDeliveredFileIsSoundAndFits() throws IOException, InterruptedException {
    Path delivered = program.home().resolve("fixture-maps");
    List<String> words =
        List.of(
            "for f in *.fixture.json; do set -- \"$@\" --fixture \"$f\"; done",
            "for f in *.stack.json; do set -- \"$@\" --stack \"$f\"; done",
            "jointwalk map check --pads saltmarsh-s2.pads.json \"$@\"");

    Program.Ended ended =
        program.shell(folder, "cd '" + delivered + "'; " + String.join("; ", words));

    assertThat(ended.code()).as(ended.err()).isZero();
    assertThat(ended.out().lines().filter(line -> line.endsWith(" fits it"))).hasSize(8);
    assertThat(ended.out()).endsWith("No warning.\n");
  }

  private static void copy(String name, Path target) throws IOException {
    Files.copy(Program.maps().resolve(name), target);
  }
}
