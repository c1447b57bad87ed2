package org.jointwalk.firmware;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.link.LinkFixture;
import org.jointwalk.link.LinkSettings;
import org.jointwalk.link.Ports;
import org.jointwalk.link.Ticks;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.SetUp;
import org.jointwalk.tool.NeedsTool;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The built program at the analog side of firmware. */
@Timeout(120)
class AnalogIT {

  private static final String SET_UP = "interposer-on-lower";

  @TempDir private Path folder = Path.of("");

  private Process start(String... more) throws IOException {
    Path home = Path.of("..").toAbsolutePath().normalize();
    Path maps = home.resolve("fixture-maps");
    List<String> words =
        new ArrayList<>(
            List.of(
                home.resolve(Path.of("host", "target", "jointwalk", "bin", "jointwalk")).toString(),
                "fixture",
                "virtual",
                "--pads",
                maps.resolve("saltmarsh-s2.pads.json").toString(),
                "--fixture",
                maps.resolve("saltmarsh-relay-matrix.fixture.json").toString(),
                "--stack",
                maps.resolve("saltmarsh-dropped.stack.json").toString()));
    words.addAll(List.of(more));
    ProcessBuilder builder = new ProcessBuilder(words).directory(folder.toFile());
    builder.environment().put("JOINTWALK_JAVA_OPTS", "-Duser.home=" + folder);
    return builder.start();
  }

  private static Step lowLevel(String a, String b) {
    return new Step(
        Kind.LOW_LEVEL,
        List.of(new Contact.Pad(Plate.OVER, a)),
        List.of(new Contact.Pad(Plate.OVER, b)),
        List.of(new Amps(0.01)),
        new Volts(0.02),
        1);
  }

  private static void measure(Process program, String port) throws Exception {
    PadMap map = SaltmarshS2.map();
    FixtureMap wired = FixtureMaps.relayMatrix(map);
    try (LinkFixture fixture =
        LinkFixture.open(
            Ports.named(port, LinkSettings.DEFAULTS),
            new Assembly(map, map.interposers().get(0), SetUp.named(SET_UP).orElseThrow()),
            wired,
            Ticks.ofThisComputer(),
            new SplittableRandom(7),
            LinkSettings.DEFAULTS)) {
      long seated = fixture.clamping().lid();
      program.getOutputStream().write("lid\n".getBytes(UTF_8));
      program.getOutputStream().flush();
      while (fixture.clamping().lid() == seated || fixture.lidOpen()) {
        assertThat(program.isAlive()).isTrue();
      }
      List<Reading> readings = new ArrayList<>();
      List<String> ground = grounds(map);
      fixture.run(
          Scan.of(SET_UP, List.of(lowLevel(ground.get(0), ground.get(1)))),
          batch -> readings.addAll(batch.readings()));

      assertThat(fixture.clamping().lid()).isEqualTo(seated + 1);
      assertThat(readings).hasSize(1).allMatch(Reading.Measured.class::isInstance);
    }
  }

  private static List<String> grounds(PadMap map) {
    return map.positions().values().stream()
        .filter(position -> position.lowerNet().equals("GROUND"))
        .map(position -> position.id())
        .toList();
  }

  @Test
  @NeedsTool("make")
  @NeedsTool("gcc")
  void programMeasuresForFirmwareAndSeatsAnewWhenTheLidMoves() throws Exception {
    Path socket = folder.resolve("analog");
    Process program = start("--analog", "unix:" + socket, "--set-up", SET_UP);
    try (BufferedReader told = program.errorReader(UTF_8)) {
      assertThat(told.readLine()).isEqualTo("The analog side listens at unix:" + socket + ".");
      Firmware firmware =
          Firmware.onPty(
              "--analog",
              socket.toString(),
              "--identity",
              "marsh-matrix-1",
              "--calibration",
              "works-1",
              "--channels",
              "2000");
      try (firmware) {
        measure(program, firmware.port());
        program.toHandle().destroy();

        assertThat(program.waitFor(30, TimeUnit.SECONDS)).isTrue();
        assertThat(program.exitValue()).isZero();
        assertThat(socket).doesNotExist();
        assertThat(firmware.process().waitFor(30, TimeUnit.SECONDS))
            .as("firmware ends with its simulator")
            .isTrue();
      }
    } finally {
      program.destroyForcibly();
    }
  }

  @Test
  void whatCannotBeMeantIsToldWithWhatIsAllowed() throws Exception {
    for (List<String> wrong :
        List.of(
            List.of("--analog", "nowhere", "--set-up", SET_UP),
            List.of("--analog", "tcp:70000", "--set-up", SET_UP),
            List.of("--analog", "tcp:0"),
            List.of("--analog", "tcp:0", "--set-up", "sandwich"),
            List.of("--analog", "tcp:0", "--set-up", SET_UP, "--faults", "drop=0.1"),
            List.of("--analog", "unix:/nowhere/at/all", "--set-up", SET_UP),
            List.of("--stdio", "--set-up", SET_UP))) {
      Process program = start(wrong.toArray(String[]::new));
      program.getOutputStream().close();
      assertThat(program.waitFor(60, TimeUnit.SECONDS)).isTrue();

      assertThat(program.exitValue()).as(wrong.toString()).isEqualTo(2);
      assertThat(program.getInputStream().readAllBytes()).isEmpty();
      assertThat(program.getErrorStream().readAllBytes()).isNotEmpty();
    }
  }
}
