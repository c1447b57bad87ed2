package org.jointwalk.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

class MainTest {

  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private final ByteArrayOutputStream err = new ByteArrayOutputStream();

  @Test
  void versionIsTheOneTheBuildWrote() {
    int code = Main.run(out, err, "--version");

    assertThat(code).isEqualTo(ExitCode.GOOD.number());
    assertThat(text(out)).matches("jointwalk \\d+\\.\\d+\\.\\d+(-SNAPSHOT)?\\R");
    assertThat(text(err)).isEmpty();
  }

  @Test
  void helpShowsAnExample() {
    int code = Main.run(out, err, "--help");

    assertThat(code).isEqualTo(ExitCode.GOOD.number());
    assertThat(text(out)).contains("Usage: jointwalk", "Example:");
  }

  @Test
  void unknownOptionIsTheUsersInput() {
    int code = Main.run(out, err, "--no-such-option");

    assertThat(code).isEqualTo(ExitCode.INPUT.number());
    assertThat(text(out)).isEmpty();
    assertThat(text(err)).contains("--no-such-option");
  }

  private static String text(ByteArrayOutputStream stream) {
    return stream.toString(StandardCharsets.UTF_8);
  }
}
