package org.jointwalk.firmware;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The reference firmware as a process, and the serial device that it made.
 *
 * @param process running
 * @param port name of the device
 */
record Firmware(Process process, String port) implements AutoCloseable {

  private static final Path HOME = Path.of("..", "firmware-protocol").toAbsolutePath().normalize();
  private static final Path OUT = HOME.resolve("target").resolve("firmware");
  private static final Pattern DEVICE = Pattern.compile("(/dev/[^ ]+)");
  private static final long BUILD_SECONDS = 120;

  /** Builds one of the programs of the firmware, as far as it is not there. */
  static Path built(String name) throws IOException, InterruptedException {
    Path program = OUT.resolve(name);
    Process make =
        new ProcessBuilder("make", "-C", HOME.toString(), "OUT=" + OUT, program.toString())
            .redirectErrorStream(true)
            .start();
    String said = new String(make.getInputStream().readAllBytes(), UTF_8);
    assertThat(make.waitFor(BUILD_SECONDS, TimeUnit.SECONDS)).isTrue();
    assertThat(make.exitValue()).as(said).isZero();
    return program;
  }

  /** The process behind a pseudo-terminal. */
  static Firmware onPty(String... options) throws IOException, InterruptedException {
    List<String> words = new ArrayList<>(List.of(built("fixture-pty").toString()));
    words.addAll(List.of(options));
    return start(words);
  }

  /** The image of a microcontroller, both of its UARTs outside the emulator. */
  static Firmware onQemu(Path analog, String... options) throws IOException, InterruptedException {
    List<String> words =
        new ArrayList<>(
            List.of(
                "qemu-system-arm",
                "-M",
                "mps2-an385",
                "-display",
                "none",
                "-monitor",
                "none",
                "-no-reboot",
                "-kernel",
                built("fixture-an385.elf").toString(),
                "-serial",
                "pty",
                "-chardev",
                "socket,id=analog,path=" + analog,
                "-serial",
                "chardev:analog"));
    words.addAll(List.of(options));
    return start(words);
  }

  private static Firmware start(List<String> words) throws IOException {
    Process process =
        new ProcessBuilder(words).redirectError(ProcessBuilder.Redirect.DISCARD).start();
    BufferedReader said = process.inputReader(UTF_8);
    Matcher device = DEVICE.matcher(String.valueOf(said.readLine()));
    assertThat(device.find()).as("%s names its serial device", words.get(0)).isTrue();
    return new Firmware(process, device.group(1));
  }

  @Override
  public void close() {
    process.destroyForcibly();
    try {
      assertThat(process.waitFor(10, TimeUnit.SECONDS)).isTrue();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
