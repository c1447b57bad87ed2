package org.jointwalk.link;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The ports of this computer, and those that a user names. Stateless. */
public final class Ports {

  private static final Pattern TCP = Pattern.compile("tcp:(.+):(\\d{1,5})");
  private static final int MOST_PORT = 65_535;

  private Ports() {}

  /**
   * The port that a text means: {@code tcp:HOST:PORT}, or the path of a serial device.
   *
   * @throws IllegalArgumentException saying what may be written, when it is neither
   */
  public static Port named(String text, LinkSettings settings) {
    if (text.isBlank()) {
      throw new IllegalArgumentException("a port has a name, such as /dev/ttyACM0");
    }
    if (!text.startsWith("tcp:")) {
      return new Named(text, () -> SerialLink.open(text, settings));
    }
    Matcher tcp = TCP.matcher(text);
    if (!tcp.matches() || Integer.parseInt(tcp.group(2)) > MOST_PORT) {
      throw new IllegalArgumentException(
          "\"" + text + "\" is no port: write tcp:HOST:NUMBER, for example tcp:localhost:7070");
    }
    String host = tcp.group(1);
    int number = Integer.parseInt(tcp.group(2));
    return new Named(text, () -> TcpLink.open(text, host, number, settings));
  }

  /**
   * Names of the serial devices that this computer lists; a device that is not among them may still
   * be opened by its name.
   *
   * @throws LinkException when the list cannot be had
   */
  public static List<String> listed() throws LinkException {
    return SerialLink.listed();
  }

  private interface Opening {
    ByteLink open() throws LinkException;
  }

  private record Named(String name, Opening opening) implements Port {

    @Override
    public ByteLink open() throws LinkException {
      return opening.open();
    }
  }
}
