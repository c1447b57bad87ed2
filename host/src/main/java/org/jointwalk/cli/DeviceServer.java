package org.jointwalk.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.jointwalk.simulator.Device;
import org.jointwalk.simulator.LineFaults;
import org.jointwalk.simulator.LineWeather;

/**
 * Joins a virtual fixture to streams and sockets. One thread has the device and everything about
 * it; the others wait for bytes and hand over what to do.
 */
final class DeviceServer {

  private static final long LONGEST_NAP = 50_000;
  private static final int INBOX = 64;
  private static final int BACKLOG = 8;
  private static final long PATIENCE_SECONDS = 1;

  private final Device device;
  private final LineWeather weather;
  private final SplittableRandom random;
  private final long began = System.nanoTime();
  private final BlockingQueue<Runnable> inbox = new ArrayBlockingQueue<>(INBOX);
  private final List<DeviceConnection> connections = new ArrayList<>();
  private final CountDownLatch ended = new CountDownLatch(1);
  private volatile boolean ending;

  /**
   * @param weather on every line
   * @param seed of what the weather does
   */
  DeviceServer(Device device, LineWeather weather, long seed) {
    this.device = device;
    this.weather = weather;
    this.random = new SplittableRandom(seed);
  }

  /** Speaks on two streams until the first has ended, or the program is told to end. */
  void speak(InputStream in, OutputStream out) {
    connect(in, out, () -> {}, () -> ending = true, false);
    serve();
  }

  /**
   * Listens on a port of this computer until the program is told to end.
   *
   * @param port 0 for any that is free
   * @param words where somebody may type "lid" or "button"
   * @param told where the port is told
   */
  void listen(int port, InputStream words, PrintWriter told) throws InputException, IOException {
    try (ServerSocket socket = open(port)) {
      told.println("The virtual fixture listens on port " + socket.getLocalPort() + ".");
      told.flush();
      background("accept", () -> accept(socket));
      background("words", () -> obey(words));
      serve();
    }
  }

  private static ServerSocket open(int port) throws InputException {
    try {
      return new ServerSocket(port, BACKLOG, InetAddress.getLoopbackAddress());
    } catch (IOException e) {
      throw new InputException(
          "Port " + port + " cannot be listened on: " + e.getMessage() + ". Try another, or 0.");
    }
  }

  private void accept(ServerSocket socket) {
    try {
      while (!ending) {
        Socket accepted = socket.accept();
        accepted.setTcpNoDelay(true);
        InputStream in = accepted.getInputStream();
        OutputStream out = accepted.getOutputStream();
        give(() -> connect(in, out, () -> close(accepted), () -> {}, true));
      }
    } catch (IOException e) {
      // The port was closed: the program ends.
      ending = true;
    }
  }

  private void obey(InputStream words) {
    BufferedReader reader =
        new BufferedReader(new InputStreamReader(words, StandardCharsets.UTF_8));
    reader
        .lines()
        .forEach(
            line -> {
              if (line.strip().equals("lid")) {
                give(device::openLid);
                give(device::closeLid);
              } else if (line.strip().equals("button")) {
                give(device::pressButton);
              }
            });
  }

  private static void close(Socket socket) {
    try {
      socket.close();
    } catch (IOException e) {
      // It is of no use any more either way.
      return;
    }
  }

  private void connect(
      InputStream in, OutputStream out, Runnable close, Runnable gone, boolean hangsUp) {
    DeviceConnection connection =
        new DeviceConnection(
            device.line(),
            new LineFaults(weather, random.split()),
            this::give,
            close,
            gone,
            this::now,
            hangsUp);
    connections.add(connection);
    background("read", () -> connection.read(in));
    background("write", () -> connection.write(out));
  }

  private static void background(String name, Runnable what) {
    Thread thread = new Thread(what, "virtual fixture, " + name);
    thread.setDaemon(true);
    thread.start();
  }

  /** Hands something to do to the thread that has the device; waits while there is much to do. */
  private void give(Runnable what) {
    try {
      inbox.put(what);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private long now() {
    return (System.nanoTime() - began) / 1000;
  }

  private void serve() {
    Thread hook = new Thread(this::leave, "virtual fixture, end");
    Runtime.getRuntime().addShutdownHook(hook);
    try {
      while (!ending) {
        nap();
        turn();
      }
      connections.forEach(DeviceConnection::close);
      turn();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      ended.countDown();
      removeHook(hook);
    }
  }

  private static void removeHook(Thread hook) {
    try {
      Runtime.getRuntime().removeShutdownHook(hook);
    } catch (IllegalStateException e) {
      // The program is ending already; the hook is at work.
      return;
    }
  }

  private void leave() {
    ending = true;
    inbox.offer(() -> {});
    try {
      ended.await(PATIENCE_SECONDS, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    Runtime.getRuntime().halt(ExitCode.GOOD.number());
  }

  /** Waits for something to do, or for the next thing that happens by itself. */
  private void nap() throws InterruptedException {
    long next = device.next();
    for (DeviceConnection connection : connections) {
      next = Math.min(next, connection.next());
    }
    long most = Math.max(0, Math.min(LONGEST_NAP, next - now()));
    Runnable first = inbox.poll(most, TimeUnit.MICROSECONDS);
    while (first != null) {
      first.run();
      first = inbox.poll();
    }
  }

  private void turn() {
    long now = now();
    for (DeviceConnection connection : List.copyOf(connections)) {
      connection.hearken(now);
      if (connection.closed()) {
        connections.remove(connection);
      }
    }
    device.poll(now);
    connections.forEach(connection -> connection.tell(now));
  }
}
