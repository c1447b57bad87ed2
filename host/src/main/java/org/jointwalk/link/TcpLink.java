package org.jointwalk.link;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.util.logging.Level;
import java.util.logging.Logger;

/** A fixture that is reached over TCP. Stateless. */
final class TcpLink {

  private static final Logger LOG = Logger.getLogger(TcpLink.class.getName());

  private TcpLink() {}

  /**
   * Connects.
   *
   * @param name as the user calls it
   */
  static ByteLink open(String name, String host, int port, LinkSettings settings)
      throws LinkException {
    InetSocketAddress address = new InetSocketAddress(host, port);
    if (address.isUnresolved()) {
      throw missing(name, "there is no computer \"" + host + "\" on this network");
    }
    Socket socket = new Socket();
    try {
      socket.connect(address, Math.toIntExact(settings.opening().toMillis()));
      socket.setTcpNoDelay(true);
    } catch (SocketTimeoutException e) {
      close(socket);
      throw missing(name, "nothing answered in " + settings.opening().toMillis() + " ms");
    } catch (IOException e) {
      close(socket);
      throw missing(name, "nothing listens there");
    }
    return new Threaded(name, new Wire(socket), settings.write());
  }

  private static LinkException missing(String name, String why) {
    return new LinkException(
        name,
        LinkException.Cause.MISSING,
        "No fixture at " + name + ": " + why + ". Look whether it is on and the number is right.");
  }

  private static void close(Socket socket) {
    try {
      socket.close();
    } catch (IOException e) {
      LOG.log(Level.FINE, "a socket could not be closed", e);
    }
  }

  private record Wire(Socket socket) implements Threaded.Wire {

    @Override
    public int read(byte[] into) throws IOException {
      return socket.getInputStream().read(into);
    }

    @Override
    public void write(byte[] bytes) throws IOException {
      socket.getOutputStream().write(bytes);
    }

    @Override
    public void close() {
      TcpLink.close(socket);
    }
  }
}
