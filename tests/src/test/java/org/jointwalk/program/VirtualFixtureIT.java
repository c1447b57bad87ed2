package org.jointwalk.program;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Frame;
import org.jointwalk.protocol.Parser;
import org.jointwalk.protocol.Received;
import org.jointwalk.protocol.Request;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The virtual fixture of the built program, over its streams and over TCP. */
@Timeout(120)
class VirtualFixtureIT {

  private static final Pattern LISTENS = Pattern.compile("listens on port ([0-9]+)");

  @TempDir private Path folder = Path.of("");

  private Process start(String... more) throws IOException {
    List<String> words =
        new ArrayList<>(
            List.of(
                Program.built().home().resolve("bin").resolve("jointwalk").toString(),
                "fixture",
                "virtual",
                "--pace",
                "free",
                "--pads",
                Program.maps().resolve("saltmarsh-s2.pads.json").toString(),
                "--fixture",
                Program.maps().resolve("saltmarsh-photo-relay.fixture.json").toString(),
                "--stack",
                Program.maps().resolve("saltmarsh-dropped.stack.json").toString()));
    words.addAll(List.of(more));
    ProcessBuilder builder = new ProcessBuilder(words).directory(folder.toFile());
    builder.environment().put("JOINTWALK_JAVA_OPTS", "-Duser.home=" + folder);
    return builder.start();
  }

  private static Answer ask(InputStream in, OutputStream out, int number, Request request)
      throws IOException {
    out.write(new Frame(0x0102, number, request).encode());
    out.flush();
    Parser parser = new Parser(Parser.End.HOST);
    byte[] one = new byte[1];
    while (in.read(one) > 0) {
      List<Received> received = parser.feed(one, 0, 1);
      if (!received.isEmpty()) {
        Frame frame = ((Received.Whole) received.get(0)).frame();
        assertThat(frame.number()).isEqualTo(number);
        return (Answer) frame.message();
      }
    }
    throw new AssertionError("the fixture said nothing more");
  }

  private static void greet(InputStream in, OutputStream out) throws IOException {
    Request.Hello hello = new Request.Hello(1, 1, false, 0x7777_0102, 0);
    Answer.Welcome welcome = (Answer.Welcome) ask(in, out, 1, hello);
    Answer.State state = (Answer.State) ask(in, out, 2, new Request.Status());

    assertThat(welcome.channels()).isGreaterThan(800);
    assertThat(state.doing()).isZero();
    assertThat(state.dropped()).isZero();
  }

  @Test
  void streamsCarryTheProtocolAndNothingElseAndTheirEndEndsIt()
      throws IOException, InterruptedException {
    Process process = start("--stdio");
    try {
      greet(process.getInputStream(), process.getOutputStream());
      process.getOutputStream().close();

      assertThat(process.waitFor(30, TimeUnit.SECONDS)).isTrue();
      assertThat(process.exitValue()).isZero();
      assertThat(process.getInputStream().readAllBytes()).isEmpty();
      assertThat(new String(process.getErrorStream().readAllBytes(), UTF_8)).isEmpty();
    } finally {
      process.destroyForcibly();
    }
  }

  @Test
  void portThatIsFreeIsToldAndServesUntilTheProgramIsToldToEnd()
      throws IOException, InterruptedException {
    Process process = start("--tcp", "0");
    try (BufferedReader told = process.errorReader(UTF_8)) {
      Matcher port = LISTENS.matcher(String.valueOf(told.readLine()));
      assertThat(port.find()).isTrue();
      int number = Integer.parseInt(port.group(1));
      for (int i = 0; i < 2; i++) {
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), number)) {
          greet(socket.getInputStream(), socket.getOutputStream());
        }
      }
      process.toHandle().destroy();

      assertThat(process.waitFor(30, TimeUnit.SECONDS)).isTrue();
      assertThat(process.exitValue()).isZero();
      assertThat(process.getInputStream().readAllBytes()).isEmpty();
    } finally {
      process.destroyForcibly();
    }
  }

  @Test
  void whatCannotBeMeantIsToldWithWhatIsAllowed() throws IOException, InterruptedException {
    for (List<String> wrong :
        List.of(
            List.of("--stdio", "--faults", "rain=1"),
            List.of("--tcp", "70000"),
            List.of("--stdio", "--tcp", "0"),
            List.of("--stdio", "--job", "J-0009"),
            List.<String>of())) {
      Process process = start(wrong.toArray(String[]::new));
      process.getOutputStream().close();
      assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();

      assertThat(process.exitValue()).as(wrong.toString()).isEqualTo(2);
      assertThat(process.getInputStream().readAllBytes()).isEmpty();
      assertThat(process.getErrorStream().readAllBytes()).isNotEmpty();
    }
  }
}
