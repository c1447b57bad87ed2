package org.jointwalk.program;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The virtual fixture of the built program, at a port of this computer. It takes its time as relays
 * do, so that a pass has a middle.
 */
final class VirtualDevice implements AutoCloseable {

  private static final Pattern LISTENS = Pattern.compile("listens on port ([0-9]+)");

  private final Process process;
  private final int port;

  private VirtualDevice(Process process, int port) {
    this.process = process;
    this.port = port;
  }

  /** Starts one with the dropped stack of the demo in it. */
  static VirtualDevice start(Path folder, String... more) throws IOException {
    List<String> words =
        new ArrayList<>(
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
                Program.maps().resolve("saltmarsh-dropped.stack.json").toString()));
    words.addAll(List.of(more));
    ProcessBuilder builder = new ProcessBuilder(words).directory(folder.toFile());
    builder.environment().put("JOINTWALK_JAVA_OPTS", "-Duser.home=" + folder);
    Process process = builder.start();
    Matcher told = LISTENS.matcher(String.valueOf(process.errorReader(UTF_8).readLine()));
    assertThat(told.find()).isTrue();
    return new VirtualDevice(process, Integer.parseInt(told.group(1)));
  }

  /** As it is typed. */
  String port() {
    return "tcp:localhost:" + port;
  }

  /** A cable to it. */
  Cable cable() throws IOException {
    return Cable.to(port);
  }

  /** Somebody opens the lid, seats the parts again and closes it. */
  void seatAgain() throws IOException {
    process.getOutputStream().write("lid\n".getBytes(UTF_8));
    process.getOutputStream().flush();
  }

  /** It says nothing more, and hears nothing, until {@link #goOn}. */
  void hang() throws IOException, InterruptedException {
    Signal.STOP.send(process);
  }

  void goOn() throws IOException, InterruptedException {
    Signal.CONT.send(process);
  }

  @Override
  public void close() {
    process.destroyForcibly();
  }

  /** What can be sent to a program. */
  enum Signal {
    INT,
    TERM,
    KILL,
    STOP,
    CONT;

    void send(Process to) throws IOException, InterruptedException {
      Process kill =
          new ProcessBuilder("kill", "-" + name(), Long.toString(to.pid())).inheritIO().start();
      assertThat(kill.waitFor(10, TimeUnit.SECONDS)).isTrue();
      assertThat(kill.exitValue()).isZero();
    }
  }
}
