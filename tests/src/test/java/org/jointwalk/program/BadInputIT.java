package org.jointwalk.program;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Runs the blocks of {@code bad-input.txt}, as many at once as the computer has cores. */
@Execution(ExecutionMode.CONCURRENT)
class BadInputIT {

  @TempDir static Path sound = Path.of("");

  @TempDir private Path folder = Path.of("");

  static List<Slip> slips() throws IOException {
    return Slip.table();
  }

  @BeforeAll
  static void layOutSoundFiles() throws IOException, InterruptedException {
    try (Stream<Path> files = Files.list(Program.maps())) {
      for (Path file : files.filter(path -> path.toString().endsWith(".json")).toList()) {
        Files.copy(file, sound.resolve(file.getFileName()));
      }
    }
    Program.Ended ended =
        Program.built()
            .run(sound, List.of("map", "to-csv", "--pads", "saltmarsh-s2.pads.json", "ring.csv"));
    assertThat(ended.code()).as(ended.err()).isZero();
  }

  @ParameterizedTest
  @MethodSource("slips")
  void slipIsToldInBenchWordsAndNothingIsDone(Slip slip) throws IOException, InterruptedException {
    copySoundFiles();
    slip.spoil(folder);

    Program.Ended ended = Program.built().run(folder, slip.command());

    assertThat(ended.code()).as(ended.err()).isEqualTo(slip.code());
    assertThat(ended.err()).doesNotContain("\tat ", "Exception", "picocli");
    List<String> told = slip.all("told");
    if (slip.code() == 0) {
      assertThat(ended.err()).isEmpty();
      assertThat(ended.out()).containsSubsequence(told);
    } else {
      assertThat(ended.out()).isEmpty();
      assertThat(ended.err()).containsSubsequence(told);
    }
    for (String file : slip.all("absent")) {
      assertThat(folder.resolve(file)).doesNotExist();
    }
    assertThat(folder.resolve(".jointwalk")).as("the log of defects").doesNotExist();
  }

  private void copySoundFiles() throws IOException {
    try (Stream<Path> files = Files.list(sound)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        Files.copy(file, folder.resolve(file.getFileName()));
      }
    }
  }

  @Test
  void everySlipSaysWhatHasToBeTold() throws IOException {
    for (Slip slip : Slip.table()) {
      assertThat(slip.all("told")).as(slip.name()).isNotEmpty();
      if (slip.code() == 2 && slip.command().get(0).equals("map")) {
        assertThat(String.join(" ", slip.all("told")))
            .as(slip.name())
            .containsPattern("allowed: |Give|Try|name another");
      }
    }
    assertThat(Slip.table()).extracting(Slip::name).doesNotHaveDuplicates();
  }
}
