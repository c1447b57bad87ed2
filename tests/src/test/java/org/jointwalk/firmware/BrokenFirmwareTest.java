package org.jointwalk.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
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

  /**
   * Breaks that the kit does not see yet. What opens no channel and needs a load cannot be seen
   * from an empty fixture; for the others a check is wanting. Whoever adds one takes its name out.
   */
  private static final Set<String> UNSEEN =
      Set.of(
          "M23b", "M2c", "M44c", "M45", "M45b", "M50b", "M53b", "M54b", "M55c", "M57b", "M58d",
          "M58e", "M58f", "M59f", "M59g", "M62d", "M63b", "M72b", "M73c", "M73f", "M76", "M80b",
          "M81b", "M86b");

  @Test
  void brokenFirmwareFailsAClauseAndEachClauseHasABreakOfItsOwn() throws Exception {
    Set<String> missed = new TreeSet<>();
    Set<String> clauses = new TreeSet<>();
    Set<String> own = new TreeSet<>();
    List<Path> programs = programs();
    for (Path program : programs) {
      String name = program.getFileName().toString();
      String clause = name.replaceAll("[a-z]+$", "");
      List<String> failed = failed(program);
      clauses.add(clause);
      if (failed.contains(clause)) {
        own.add(clause);
      }
      if (failed.isEmpty()) {
        missed.add(name);
      }
    }
    assertThat(programs).hasSizeGreaterThan(150);
    assertThat(missed).isEqualTo(new TreeSet<>(UNSEEN));
    clauses.removeAll(own);
    assertThat(clauses).as("clauses without a break that is seen").containsExactly("M45");
  }

  private static List<String> failed(Path program) {
    try {
      return ToldFixture.look(program, List.of()).stream()
          .filter(o -> o.result() == Outcome.Result.FAILED)
          .map(Outcome::clause)
          .toList();
    } catch (IOException e) {
      // A program that died is seen, though by no clause.
      return List.of(e.toString());
    }
  }

  private static List<Path> programs() throws Exception {
    Path all = Firmware.built("broken/all");
    try (Stream<Path> files = Files.list(all.resolveSibling(""))) {
      return files.filter(f -> f.getFileName().toString().startsWith("M")).sorted().toList();
    }
  }
}
