package org.jointwalk.firmware;

import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.jointwalk.conform.Conformance;
import org.jointwalk.conform.Outcome;
import org.jointwalk.conform.Wire;

/** The core as a process in a time that it is told; {@code tests/told.c} says how. One thread. */
final class ToldFixture implements Wire, AutoCloseable {

  private static final int MICRO = 1_000;
  private static final long SEED = 5;

  private final Process process;
  private final OutputStream to;
  private final DataInputStream from;
  private long nanos;

  /**
   * @param program {@code told} or {@code broken}, built
   * @param options what the fixture is
   */
  ToldFixture(Path program, List<String> options) throws IOException {
    List<String> words = new ArrayList<>(List.of(program.toString()));
    words.addAll(options);
    process = new ProcessBuilder(words).redirectError(ProcessBuilder.Redirect.INHERIT).start();
    to = process.getOutputStream();
    from = new DataInputStream(process.getInputStream());
  }

  /** What the kit finds, with a hand at the lid. */
  static List<Outcome> look(Path program, List<String> options) throws IOException {
    try (ToldFixture fixture = new ToldFixture(program, options)) {
      return new Conformance(
              fixture,
              Optional.empty(),
              Optional.of(said -> fixture.lid(said.startsWith("Open"))),
              new SplittableRandom(SEED))
          .look();
    }
  }

  private void command(char letter, long value, byte... more) throws IOException {
    ByteBuffer words = ByteBuffer.allocate(5 + more.length).order(ByteOrder.LITTLE_ENDIAN);
    words.put((byte) letter).putInt((int) value).put(more);
    to.write(words.array());
    to.flush();
  }

  private int number() throws IOException {
    return Integer.reverseBytes(from.readInt());
  }

  private void time() throws IOException {
    nanos += Integer.toUnsignedLong(number() - (int) (nanos / MICRO)) * MICRO;
  }

  @Override
  public byte[] read(Duration most) throws IOException {
    command('R', most.toNanos() / MICRO);
    time();
    byte[] bytes = new byte[number()];
    if (from.readNBytes(bytes, 0, bytes.length) < bytes.length) {
      throw new EOFException("the fixture has ended");
    }
    return bytes;
  }

  @Override
  public void write(byte[] bytes) throws IOException {
    command('W', bytes.length, bytes);
  }

  @Override
  public void pass(Duration most) throws IOException {
    command('P', Math.max(1, most.toNanos() / MICRO));
    time();
  }

  @Override
  public long nanos() {
    return nanos;
  }

  private void lid(boolean open) {
    try {
      command('L', open ? 1 : 0);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  @Override
  public void close() {
    process.destroyForcibly();
  }
}
