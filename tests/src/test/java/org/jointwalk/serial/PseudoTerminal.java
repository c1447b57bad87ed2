package org.jointwalk.serial;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;

/** A serial device with a program behind it. */
final class PseudoTerminal implements AutoCloseable {

  private final Process socat;

  private PseudoTerminal(Process socat) {
    this.socat = socat;
  }

  /**
   * Makes one.
   *
   * @param link name of the device
   * @param behind what socat joins to it
   */
  static PseudoTerminal at(Path link, String behind) throws IOException {
    Process socat =
        new ProcessBuilder("socat", "-d", "-d", "PTY,link=" + link + ",raw,echo=0", behind).start();
    BufferedReader said = socat.errorReader(UTF_8);
    String line = said.readLine();
    while (line != null && !line.contains("starting data transfer loop")) {
      line = said.readLine();
    }
    assertThat(line).as("socat made " + link).isNotNull();
    return new PseudoTerminal(socat);
  }

  /** Takes the device away, as when a cable is pulled. */
  @Override
  public void close() {
    socat.descendants().forEach(ProcessHandle::destroyForcibly);
    socat.destroyForcibly();
    try {
      assertThat(socat.waitFor(10, TimeUnit.SECONDS)).isTrue();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
