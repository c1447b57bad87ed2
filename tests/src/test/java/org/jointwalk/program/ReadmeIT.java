package org.jointwalk.program;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jointwalk.program.Document.Count;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Does what the README shows, in its order, and compares the result that it prints. */
class ReadmeIT {

  /** What waits for a person or for hardware. */
  private static final Pattern NOT_HERE =
      Pattern.compile("\\S*jointwalk( (bench|watch|fixture)\\b.*|.* --port\\b.*)?");

  /** What a pass or a verdict may end with besides success: a fault found, or undecided. */
  private static final Pattern RESULT = Pattern.compile("\\S*jointwalk (pass|verdict)\\b.*");

  private static final List<Ran> ALL = new ArrayList<>();

  @TempDir static Path folder = Path.of("");

  /** A command of the README and how it ended. */
  private record Ran(String command, Program.Ended ended) {}

  private static Document readme() throws IOException {
    return Document.of(Files.readString(Path.of("..", "README.md"), UTF_8));
  }

  @BeforeAll
  static void doWhatIsShown() throws IOException, InterruptedException {
    Program program = Program.built();
    Path maps = Files.createDirectory(folder.resolve("fixture-maps"));
    try (Stream<Path> files = Files.list(Program.maps())) {
      for (Path file : files.toList()) {
        Files.copy(file, maps.resolve(file.getFileName()));
      }
    }
    Path bin =
        Files.createDirectories(folder.resolve("host").resolve("target").resolve("jointwalk"))
            .resolve("bin");
    Path start = Files.createDirectory(bin).resolve("jointwalk");
    Files.writeString(start, "#!/bin/sh\nexec jointwalk \"$@\"\n", UTF_8);
    assertThat(start.toFile().setExecutable(true)).isTrue();
    for (String command : readme().commands()) {
      if (!NOT_HERE.matcher(command).matches()) {
        ALL.add(new Ran(command, program.shell(folder, command)));
      }
    }
  }

  @Test
  void everyCommandWorksInItsOrder() {
    assertThat(ALL).isNotEmpty();
    for (Ran ran : ALL) {
      List<Integer> allowed =
          RESULT.matcher(ran.command()).matches() ? List.of(0, 10, 11) : List.of(0);
      assertThat(ran.ended().code()).as(ran.command() + "\n" + ran.ended().err()).isIn(allowed);
    }
  }

  @Test
  void resultThatIsPrintedAddsUpAndIsThatOfTheDemo() throws IOException {
    assertThat(readme().results()).as("the result lines of the README").hasSize(1);
    List<Count> printed = readme().results().get(0);

    assertThat(printed).hasSizeGreaterThanOrEqualTo(6);
    assertThat(printed.stream().mapToInt(Count::number).sum()).isEqualTo(positions());
    List<Count> shown = Document.counts(demo().ended().out().lines().toList());
    assertThat(Collections.indexOfSubList(shown, printed))
        .as("the lines of the README, one after another, in %s", shown)
        .isNotNegative();
  }

  private static Ran demo() {
    return ALL.stream()
        .filter(ran -> ran.command().endsWith("jointwalk demo"))
        .findFirst()
        .orElseThrow(() -> new AssertionError("the README shows no demo"));
  }

  /** A position is a line of the pad map with an id, two nets and its place. */
  private static int positions() throws IOException {
    try (Stream<String> lines = Files.lines(Program.maps().resolve("saltmarsh-s2.pads.json"))) {
      return (int) lines.filter(line -> line.contains("\"id\": \"N")).count();
    }
  }
}
