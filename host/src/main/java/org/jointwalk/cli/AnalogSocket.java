package org.jointwalk.cli;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.SocketAddress;
import java.net.StandardProtocolFamily;
import java.net.StandardSocketOptions;
import java.net.UnixDomainSocketAddress;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/**
 * Where firmware finds the analog side.
 *
 * @param address of this computer
 * @param path of a Unix socket, empty for a port
 */
record AnalogSocket(SocketAddress address, Optional<Path> path) {

  private static final String UNIX = "unix:";
  private static final String TCP = "tcp:";
  private static final int MOST_PORT = 65_535;

  /** Reads {@code unix:PATH} or {@code tcp:PORT}. */
  static AnalogSocket of(String text) throws InputException {
    try {
      if (text.startsWith(UNIX) && text.length() > UNIX.length()) {
        Path path = Path.of(text.substring(UNIX.length()));
        return new AnalogSocket(UnixDomainSocketAddress.of(path), Optional.of(path));
      }
      if (text.startsWith(TCP)) {
        int port = Integer.parseInt(text.substring(TCP.length()));
        if (port >= 0 && port <= MOST_PORT) {
          return new AnalogSocket(
              new InetSocketAddress(InetAddress.getLoopbackAddress(), port), Optional.empty());
        }
      }
    } catch (IllegalArgumentException e) {
      throw new InputException(wrong(text));
    }
    throw new InputException(wrong(text));
  }

  private static String wrong(String text) {
    return "--analog "
        + text
        + " is no socket: give unix:PATH, or tcp:PORT with a port from 1 to "
        + MOST_PORT
        + ", or 0 for any.";
  }

  ServerSocketChannel open() throws InputException, IOException {
    ServerSocketChannel server =
        path.isPresent()
            ? ServerSocketChannel.open(StandardProtocolFamily.UNIX)
            : ServerSocketChannel.open();
    try {
      return server.bind(address);
    } catch (IOException e) {
      server.close();
      String free =
          path.isPresent()
              ? "Where an earlier run left the file, remove it; else name another."
              : "Try another port, or 0.";
      throw new InputException(
          "The analog side cannot listen at "
              + path.map(p -> UNIX + p).orElse(address.toString())
              + ": "
              + e.getMessage()
              + ". "
              + free);
    }
  }

  /** The socket as firmware would be given it. */
  String shown(ServerSocketChannel server) throws IOException {
    return server.getLocalAddress() instanceof InetSocketAddress inet
        ? TCP + inet.getPort()
        : UNIX + path.orElseThrow();
  }

  /** Short lines are sent at once. */
  void hasten(SocketChannel channel) throws IOException {
    if (path.isEmpty()) {
      channel.setOption(StandardSocketOptions.TCP_NODELAY, true);
    }
  }

  /** Takes the file of a Unix socket away. */
  void remove() {
    try {
      if (path.isPresent()) {
        Files.deleteIfExists(path.get());
      }
    } catch (IOException e) {
      // A file that stays is named when somebody wants to listen there.
      return;
    }
  }
}
