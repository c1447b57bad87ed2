package org.jointwalk.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.ByteBuffer;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.jointwalk.simulator.Analog;

/**
 * Measures for firmware at the other end of a socket, one after the other. One thread listens to
 * the firmware and one to whoever types; both hold this object while they have the stack.
 */
final class AnalogServer {

  private static final int PIECE = 4_096;

  /** Longer than any firmware takes to believe a contact. */
  private static final long HELD_MILLIS = 100;

  private final Analog analog;
  private final ScheduledExecutorService later =
      Executors.newSingleThreadScheduledExecutor(
          task -> {
            Thread thread = new Thread(task, "analog side, hand");
            thread.setDaemon(true);
            return thread;
          });
  private Optional<SocketChannel> firmware = Optional.empty();

  AnalogServer(Analog analog) {
    this.analog = analog;
  }

  /**
   * Listens until the program is told to end.
   *
   * @param where socket
   * @param words where somebody may type "lid" or "button"
   * @param told where the socket is told
   */
  void listen(AnalogSocket where, InputStream words, PrintWriter told)
      throws InputException, IOException {
    try (ServerSocketChannel server = where.open()) {
      Thread hook = new Thread(() -> leave(where), "analog side, end");
      Runtime.getRuntime().addShutdownHook(hook);
      told.println("The analog side listens at " + where.shown(server) + ".");
      told.flush();
      Thread obeys = new Thread(() -> obey(words), "analog side, words");
      obeys.setDaemon(true);
      obeys.start();
      while (true) {
        try (SocketChannel channel = server.accept()) {
          where.hasten(channel);
          serve(channel);
        }
      }
    }
  }

  private static void leave(AnalogSocket where) {
    where.remove();
    Runtime.getRuntime().halt(ExitCode.GOOD.number());
  }

  private void serve(SocketChannel channel) {
    ByteBuffer buffer = ByteBuffer.allocate(PIECE);
    try {
      begin(channel);
      while (channel.read(buffer) >= 0) {
        byte[] bytes = new byte[buffer.flip().remaining()];
        buffer.get(bytes);
        buffer.clear();
        answer(channel, bytes);
      }
    } catch (IOException e) {
      // The firmware is gone, as with the end of the stream.
      end();
      return;
    }
    end();
  }

  private synchronized void begin(SocketChannel channel) throws IOException {
    firmware = Optional.of(channel);
    write(channel, analog.greeting());
  }

  private synchronized void answer(SocketChannel channel, byte[] bytes) throws IOException {
    write(channel, analog.take(bytes));
  }

  private synchronized void end() {
    firmware = Optional.empty();
    analog.hangUp();
  }

  private static void write(SocketChannel channel, byte[] bytes) throws IOException {
    ByteBuffer buffer = ByteBuffer.wrap(bytes);
    while (buffer.hasRemaining()) {
      channel.write(buffer);
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
                move(true, true);
                letGo(true);
              } else if (line.strip().equals("button")) {
                move(false, true);
                letGo(false);
              }
            });
  }

  private void letGo(boolean lid) {
    Future<?> unused = later.schedule(() -> move(lid, false), HELD_MILLIS, TimeUnit.MILLISECONDS);
  }

  private synchronized void move(boolean lid, boolean first) {
    byte[] said = lid ? (first ? analog.openLid() : analog.closeLid()) : analog.button(first);
    if (firmware.isPresent()) {
      try {
        write(firmware.get(), said);
      } catch (IOException e) {
        // The thread that listens to the firmware sees it too.
        firmware = Optional.empty();
      }
    }
  }
}
