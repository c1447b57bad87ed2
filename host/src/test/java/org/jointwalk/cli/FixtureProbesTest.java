package org.jointwalk.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FixtureProbesTest {

  @TempDir Path home = Path.of("");

  @Test
  void probesOfAnEmptyLogAreUnknownAndNoFileIsMade() {
    Desk desk = new Desk(home);

    desk.done("fixture probes");

    assertThat(desk.out()).startsWith("No pass yet in " + home);
    assertThat(home).isEmptyDirectory();
  }

  @Test
  void jsonOfAnEmptyLogHasNoFixture() {
    Desk desk = new Desk(home);

    desk.done("fixture probes --json");

    assertThat(desk.out()).contains("\"fixtures\" : [ ]");
  }
}
