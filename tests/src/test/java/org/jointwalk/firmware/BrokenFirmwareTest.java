package org.jointwalk.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jointwalk.conform.Outcome;
import org.jointwalk.tool.NeedsTool;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/**
 * The reference firmware, broken in every way that {@code tests/broken.txt} lists, before the
 * conformance kit.
 */
@NeedsTool("make")
@NeedsTool("gcc")
@Timeout(300)
class BrokenFirmwareTest {

  @Test
  void everyBrokenFirmwareFailsItsClause() throws Exception {
    List<String> missed = new ArrayList<>();
    List<Path> programs = programs();
    for (Path program : programs) {
      String name = program.getFileName().toString();
      String clause = name.replaceAll("[a-z]+$", "");
      List<String> failed;
      try {
        failed =
            ToldFixture.look(program, List.of()).stream()
                .filter(o -> o.result() == Outcome.Result.FAILED)
                .map(Outcome::clause)
                .toList();
      } catch (IOException e) {
        failed = List.of(e.toString());
      }
      if (!failed.contains(clause)) {
        missed.add(name + " fails " + failed);
      }
    }
    assertThat(programs).hasSizeGreaterThan(100);
    assertThat(missed).isEmpty();
  }

  private static List<Path> programs() throws Exception {
    Path all = Firmware.built("broken/all");
    try (Stream<Path> files = Files.list(all.resolveSibling(""))) {
      return files.filter(f -> f.getFileName().toString().startsWith("M")).sorted().toList();
    }
  }
}
