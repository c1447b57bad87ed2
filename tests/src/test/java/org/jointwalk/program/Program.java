package org.jointwalk.program;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * The program as it is delivered, started in a folder that is also the user's home and the place
 * for temporary files. Several threads may use one, in folders of their own.
 *
 * @param home the folder that is delivered
 */
record Program(Path home) {

  /** Far more than any command takes on a busy computer; what hangs must not hang the build. */
  private static final long MOST_SECONDS = 300;

  /**
   * How a command ended.
   *
   * @param code exit code
   * @param out all of standard output
   * @param err all of standard error
   */
  record Ended(int code, String out, String err) {}

  /** The program that the build made. */
  static Program built() {
    Path home = Path.of("..", "host", "target", "jointwalk").toAbsolutePath().normalize();
    assertThat(home.resolve("bin").resolve("jointwalk"))
        .as("build the distribution first: mvn -pl host package -DskipTests")
        .isExecutable();
    return new Program(home);
  }

  /** The maps of the demo, as they are committed. */
  static Path maps() {
    return Path.of("..", "fixture-maps").toAbsolutePath().normalize();
  }

  /** Runs a command to its end. */
  Ended run(Path folder, List<String> arguments) throws IOException, InterruptedException {
    List<String> words = new ArrayList<>(List.of(bin().resolve("jointwalk").toString()));
    words.addAll(arguments);
    return run(folder, words.toArray(String[]::new));
  }

  /** Runs a line of a shell to its end, with the program on the path. */
  Ended shell(Path folder, String line) throws IOException, InterruptedException {
    return run(folder, "sh", "-eu", "-c", line);
  }

  private Path bin() {
    return home.resolve("bin");
  }

  private Ended run(Path folder, String... words) throws IOException, InterruptedException {
    Path said = Files.createTempDirectory(folder, "said");
    Path out = said.resolve("out");
    Path err = said.resolve("err");
    ProcessBuilder builder =
        new ProcessBuilder(words)
            .directory(folder.toFile())
            .redirectOutput(out.toFile())
            .redirectError(err.toFile());
    builder.redirectInput(ProcessBuilder.Redirect.from(new File("/dev/null")));
    builder
        .environment()
        .put("JOINTWALK_JAVA_OPTS", "-Duser.home=" + folder + " -Djava.io.tmpdir=" + folder);
    builder.environment().remove("JOINTWALK_LOG");
    builder.environment().merge("PATH", bin().toString(), (old, own) -> own + ":" + old);
    Process process = builder.start();
    try {
      assertThat(process.waitFor(MOST_SECONDS, TimeUnit.SECONDS))
          .as("%s ended within %d s", List.of(words), MOST_SECONDS)
          .isTrue();
      return new Ended(
          process.exitValue(), Files.readString(out, UTF_8), Files.readString(err, UTF_8));
    } finally {
      process.destroyForcibly();
    }
  }
}
