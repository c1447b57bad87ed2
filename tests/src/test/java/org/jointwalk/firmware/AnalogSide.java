package org.jointwalk.firmware;

import java.io.IOException;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.ByteBuffer;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.nio.file.Path;
import java.util.Optional;
import org.jointwalk.simulator.Analog;

/** The analog side at a Unix socket, for one firmware. Whoever moves the lid holds this object. */
final class AnalogSide implements AutoCloseable {

  private final ServerSocketChannel server;
  private final Analog analog;
  private Optional<SocketChannel> firmware = Optional.empty();

  AnalogSide(Path path, Analog analog) throws IOException {
    this.analog = analog;
    server = ServerSocketChannel.open(StandardProtocolFamily.UNIX);
    server.bind(UnixDomainSocketAddress.of(path));
    Thread thread = new Thread(this::serve, "analog side");
    thread.setDaemon(true);
    thread.start();
  }

  private void serve() {
    ByteBuffer buffer = ByteBuffer.allocate(4096);
    try (SocketChannel channel = server.accept()) {
      begin(channel);
      while (channel.read(buffer) >= 0) {
        byte[] bytes = new byte[buffer.flip().remaining()];
        buffer.get(bytes);
        buffer.clear();
        answer(channel, bytes);
      }
    } catch (IOException e) {
      // The test is over.
      return;
    }
  }

  private synchronized void begin(SocketChannel channel) throws IOException {
    firmware = Optional.of(channel);
    channel.write(ByteBuffer.wrap(analog.greeting()));
  }

  private synchronized void answer(SocketChannel channel, byte[] bytes) throws IOException {
    channel.write(ByteBuffer.wrap(analog.take(bytes)));
  }

  synchronized void lid(boolean open) {
    try {
      firmware.orElseThrow().write(ByteBuffer.wrap(open ? analog.openLid() : analog.closeLid()));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  @Override
  public void close() throws IOException {
    server.close();
  }
}
