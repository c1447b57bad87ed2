package org.jointwalk.serial;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.util.Arrays;
import org.jointwalk.simulator.Device;
import org.jointwalk.simulator.DeviceLine;

/** A virtual device at a port of this computer, one line after the other. */
final class DeviceOnTcp implements AutoCloseable {

  private final ServerSocket server;
  private final Device device;

  DeviceOnTcp(Device device) throws IOException {
    this.device = device;
    server = new ServerSocket(0, 5, InetAddress.getLoopbackAddress());
    Thread thread = new Thread(this::serve, "serves a device");
    thread.setDaemon(true);
    thread.start();
  }

  int port() {
    return server.getLocalPort();
  }

  /** Opens and closes the lid. */
  void reseat() {
    synchronized (device) {
      device.openLid();
      device.closeLid();
    }
  }

  private void serve() {
    try {
      while (!server.isClosed()) {
        try (Socket socket = server.accept()) {
          socket.setTcpNoDelay(true);
          socket.setSoTimeout(1);
          serve(socket);
        }
      }
    } catch (IOException e) {
      // The test is over.
      return;
    }
  }

  private void serve(Socket socket) throws IOException {
    DeviceLine line;
    synchronized (device) {
      line = device.line();
    }
    InputStream in = socket.getInputStream();
    byte[] buffer = new byte[512];
    int count = 0;
    while (count >= 0) {
      byte[] out;
      synchronized (device) {
        line.take(Arrays.copyOf(buffer, count));
        device.poll(System.nanoTime() / 1000);
        out = line.outgoing();
      }
      socket.getOutputStream().write(out);
      try {
        count = in.read(buffer);
      } catch (SocketTimeoutException e) {
        count = 0;
      }
    }
    synchronized (device) {
      line.close();
    }
  }

  @Override
  public void close() throws IOException {
    server.close();
  }
}
