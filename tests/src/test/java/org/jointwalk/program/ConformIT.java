package org.jointwalk.program;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jointwalk.tool.NeedsTool;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The conformance kit of the built program on every fixture that this repository has. */
@Timeout(180)
class ConformIT {

  private static final Pattern LISTENS = Pattern.compile("listens on port ([0-9]+)");
  private static final int FIXTURE = 3;

  @TempDir private Path folder = Path.of("");

  private Process start(List<String> words) throws IOException {
    ProcessBuilder builder = new ProcessBuilder(words).directory(folder.toFile());
    builder.environment().put("JOINTWALK_JAVA_OPTS", "-Duser.home=" + folder);
    return builder.start();
  }

  private static JsonNode conforms(Program.Ended ended, int notTestable) throws IOException {
    JsonNode json = new ObjectMapper().readTree(ended.out());
    assertThat(json.at("/failed").asInt()).as(ended.out() + ended.err()).isZero();
    assertThat(ended.code()).isZero();
    assertThat(json.at("/format").asText()).isEqualTo("jointwalk conformance 1");
    assertThat(json.at("/notTestable").asInt()).isEqualTo(notTestable);
    assertThat(json.at("/passed").asInt() + notTestable).isEqualTo(json.at("/clauses").size());
    assertThat(ended.err()).contains("Nothing may be clamped");
    return json;
  }

  private Program.Ended conform(String port) throws IOException, InterruptedException {
    return Program.built().run(folder, List.of("fixture", "conform", "--port", port, "--json"));
  }

  @Test
  void virtualFixtureConforms() throws IOException, InterruptedException {
    Process process =
        start(
            List.of(
                Program.built().home().resolve("bin").resolve("jointwalk").toString(),
                "fixture",
                "virtual",
                "--tcp",
                "0",
                "--pads",
                Program.maps().resolve("saltmarsh-s2.pads.json").toString(),
                "--fixture",
                Program.maps().resolve("saltmarsh-photo-relay.fixture.json").toString(),
                "--stack",
                Program.maps().resolve("saltmarsh-good.stack.json").toString()));
    try (BufferedReader told = process.errorReader(UTF_8)) {
      Matcher port = LISTENS.matcher(String.valueOf(told.readLine()));
      assertThat(port.find()).isTrue();

      JsonNode json = conforms(conform("tcp:localhost:" + port.group(1)), 6);
      assertThat(json.at("/clauses/0/clause").asText()).isEqualTo("M1");
      assertThat(json.at("/clauses/0/result").asText()).isEqualTo("passed");
      assertThat(json.at("/clauses/0/title").asText()).isNotEmpty();
    } finally {
      process.destroyForcibly();
    }
  }

  @Test
  @NeedsTool("make")
  void referenceFirmwareConforms() throws IOException, InterruptedException {
    Path firmware = Path.of("..", "firmware-protocol").toAbsolutePath().normalize();
    Process make = start(List.of("make", "-s", "-C", firmware.toString(), "pty"));
    assertThat(make.waitFor(120, TimeUnit.SECONDS)).isTrue();
    assertThat(make.exitValue())
        .as(new String(make.getErrorStream().readAllBytes(), UTF_8))
        .isZero();
    Path line = folder.resolve("line");
    Path table = Files.writeString(folder.resolve("table"), "", UTF_8);
    Process process =
        start(
            List.of(
                firmware.resolve("target/firmware/fixture-pty").toString(),
                "--link",
                line.toString(),
                "--table",
                table.toString()));
    try (BufferedReader said = process.inputReader(UTF_8)) {
      assertThat(said.readLine()).isNotNull();

      conforms(conform(line.toString()), 7);
    } finally {
      process.destroyForcibly();
    }
  }

  @Test
  void somethingThatIsNoFixtureFailsTheFirstClause() throws IOException, InterruptedException {
    try (ServerSocket mute = new ServerSocket(0, 5, InetAddress.getLoopbackAddress())) {
      Program.Ended ended = conform("tcp:localhost:" + mute.getLocalPort());

      JsonNode json = new ObjectMapper().readTree(ended.out());
      assertThat(ended.code()).isEqualTo(FIXTURE);
      assertThat(json.at("/failed").asInt()).isEqualTo(1);
      assertThat(json.at("/passed").asInt()).isZero();
    }
  }
}
