package org.jointwalk.campaign;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.util.Arrays;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.jointwalk.simulator.Device;
import org.jointwalk.simulator.DeviceLine;

/**
 * A device that other programs reach over TCP, one after the other, in the time of this computer.
 * It works on a thread of its own until it is closed.
 */
final class ServedDevice implements AutoCloseable {

  private static final Logger LOG = Logger.getLogger(ServedDevice.class.getName());

  private final Device device;
  private final ServerSocket server;
  private final Thread thread;
  private final long start = System.nanoTime();

  ServedDevice(Device device) throws IOException {
    this.device = device;
    this.server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress());
    this.thread = new Thread(this::serve, "serves a device");
    thread.setDaemon(true);
    thread.start();
  }

  /** As a host calls it. */
  String port() {
    return "tcp:localhost:" + server.getLocalPort();
  }

  private void serve() {
    while (!server.isClosed()) {
      try (Socket socket = server.accept()) {
        socket.setTcpNoDelay(true);
        socket.setSoTimeout(1);
        serve(socket);
      } catch (IOException e) {
        LOG.log(Level.FINE, "a program was killed, or this was closed", e);
      }
    }
  }

  private void serve(Socket socket) throws IOException {
    DeviceLine line = device.line();
    try {
      serve(socket, line);
    } finally {
      line.close();
      device.poll(now());
    }
  }

  private void serve(Socket socket, DeviceLine line) throws IOException {
    InputStream in = socket.getInputStream();
    byte[] buffer = new byte[1024];
    int count = 0;
    while (count >= 0) {
      line.take(Arrays.copyOf(buffer, count));
      device.poll(now());
      socket.getOutputStream().write(line.outgoing());
      try {
        count = in.read(buffer, 0, Math.min(buffer.length, line.room()));
      } catch (SocketTimeoutException e) {
        count = 0;
      }
    }
  }

  private long now() {
    return (System.nanoTime() - start) / 1000;
  }

  @Override
  public void close() throws IOException {
    server.close();
    thread.interrupt();
  }
}
