package org.jointwalk.link;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import org.jointwalk.protocol.StepRefusal;

/** A peer that is reached over TCP, one connection after the other. */
public final class Served implements AutoCloseable {

  private final ServerSocket server;
  private final PeerFixture peer;

  private Served(ServerSocket server, PeerFixture peer) {
    this.server = server;
    this.peer = peer;
    Thread thread = new Thread(this::serve, "serves a peer");
    thread.setDaemon(true);
    thread.start();
  }

  /** A peer on a free port of this computer, in the time of this computer. */
  public static Served here() throws IOException {
    return of(new PeerFixture(Bench.WIRED, Ticks.ofThisComputer()));
  }

  static Served of(PeerFixture peer) throws IOException {
    return new Served(new ServerSocket(0, 5, InetAddress.getLoopbackAddress()), peer);
  }

  /** As it is typed. */
  public String port() {
    return "tcp:localhost:" + server.getLocalPort();
  }

  /** Says from now on that another program measures. */
  public Served busy() {
    peer.busy = true;
    return this;
  }

  /** Opens the lid. */
  public Served opened() {
    peer.lid = 1;
    return this;
  }

  /** Says nothing. */
  public Served silent() {
    peer.silent = true;
    return this;
  }

  /** Answers everything with the same words, as another program does. */
  public Served saying(String words) {
    peer.garbage = words.getBytes(StandardCharsets.UTF_8);
    return this;
  }

  /** Speaks another version of the protocol. */
  public Served ofVersion(int version) {
    peer.version = version;
    return this;
  }

  /** Has fewer channels than its map. */
  public Served withChannels(int channels) {
    peer.channels = channels;
    return this;
  }

  /** Will not take a step that would be too much voltage. */
  public Served refusing(int step) {
    peer.refuse(step, StepRefusal.VOLTAGE);
    return this;
  }

  /** Somebody opens and closes the lid while a step is taken. */
  public Served opensItsLidAt(int step) {
    peer.at(
        step,
        () -> {
          peer.openLid();
          peer.closeLid();
        });
    return this;
  }

  /** Finds a connection between its buses. */
  public Served withAStuckSwitch() {
    peer.badBus = true;
    return this;
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
    InputStream in = socket.getInputStream();
    byte[] buffer = new byte[4096];
    int count = 0;
    while (count >= 0) {
      peer.take(Arrays.copyOf(buffer, count));
      byte[] out = peer.give();
      socket.getOutputStream().write(out);
      try {
        count = in.read(buffer);
      } catch (SocketTimeoutException e) {
        count = 0;
      }
    }
  }

  @Override
  public void close() throws IOException {
    server.close();
  }
}
