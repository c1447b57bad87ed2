package org.jointwalk.conform;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Every clause is looked at, and every look has caught something. */
class ClausesTest {

  @Test
  void everyClauseOfTheSpecificationHasARow() throws IOException {
    assertThat(WriteClauses.rows()).hasSize(96);
  }

  @Test
  void everyClauseThatBindsAFixtureIsLookedAtOrSaysWhyNot() throws IOException {
    assertThat(WriteClauses.rows()).noneMatch(row -> row.conform().isEmpty());
  }

  @Test
  void everyClauseThatCanBeSeenHasABrokenFixture() throws IOException {
    assertThat(WriteClauses.rows()).noneMatch(row -> row.variant().isEmpty());
  }

  @Test
  void noMoreThanOneClauseInTenCannotBeSeen() {
    List<Outcome> all = Conformance.clauses();
    long hidden = all.stream().filter(o -> o.result() == Outcome.Result.NOT_TESTABLE).count();

    assertThat(10 * hidden).as(hidden + " of " + all.size()).isLessThanOrEqualTo(all.size());
  }

  @Test
  void committedTableIsTheOneThatIsMade() throws IOException {
    assertThat(Files.readString(WriteClauses.FILE, StandardCharsets.UTF_8))
        .isEqualTo(WriteClauses.text());
  }
}
