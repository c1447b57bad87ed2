package org.jointwalk.program;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;

/** A cable between a program and a fixture, which can be pulled and put back. Any thread. */
final class Cable implements AutoCloseable {

  private static final int PIECE = 512;

  private final ServerSocket server;
  private final int far;
  private final List<Socket> ends = new CopyOnWriteArrayList<>();
  private final AtomicInteger used = new AtomicInteger();
  private volatile boolean out;

  private Cable(ServerSocket server, int far) {
    this.server = server;
    this.far = far;
  }

  /** A cable to a port of this computer. */
  static Cable to(int port) throws IOException {
    Cable cable = new Cable(new ServerSocket(0, 5, InetAddress.getLoopbackAddress()), port);
    background(cable::accept);
    return cable;
  }

  /** As it is typed. */
  String port() {
    return "tcp:localhost:" + server.getLocalPort();
  }

  /** How often somebody began to speak over it. */
  int used() {
    return used.get();
  }

  /** Pulls it: what is on its way is lost. */
  void pull() throws IOException {
    out = true;
    hangUp();
  }

  void putBack() {
    out = false;
  }

  /** Sends the program what the fixture never said. */
  void crackle(byte... noise) throws IOException {
    // The program's end comes first, and the last pair is the one in use.
    OutputStream program = ends.get(ends.size() - 2).getOutputStream();
    program.write(noise);
    program.flush();
  }

  private void hangUp() throws IOException {
    for (Socket end : ends) {
      end.close();
    }
  }

  private static void background(Runnable what) {
    Thread thread = new Thread(what, "cable");
    thread.setDaemon(true);
    thread.start();
  }

  private void accept() {
    try {
      while (!server.isClosed()) {
        Socket near = server.accept();
        if (out) {
          near.close();
        } else {
          join(near, new Socket(InetAddress.getLoopbackAddress(), far));
        }
      }
    } catch (IOException e) {
      // The test is over.
      return;
    }
  }

  private void join(Socket near, Socket other) throws IOException {
    near.setTcpNoDelay(true);
    other.setTcpNoDelay(true);
    ends.addAll(List.of(near, other));
    used.incrementAndGet();
    background(() -> carry(near, other));
    background(() -> carry(other, near));
  }

  private static void carry(Socket from, Socket to) {
    byte[] piece = new byte[PIECE];
    try (from;
        to) {
      InputStream in = from.getInputStream();
      for (int size = in.read(piece); size >= 0; size = in.read(piece)) {
        to.getOutputStream().write(piece, 0, size);
      }
    } catch (IOException e) {
      // The other end has gone, or the cable was pulled.
      return;
    }
  }

  @Override
  public void close() throws IOException {
    server.close();
    hangUp();
  }
}
