package org.jointwalk.cli;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.Arrays;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.function.Consumer;
import java.util.function.LongSupplier;
import org.jointwalk.simulator.DeviceLine;
import org.jointwalk.simulator.LineFaults;

/**
 * One stream in and one out at a line of a virtual fixture. {@link #read} and {@link #write} have a
 * thread each; all else belongs to the thread that has the device.
 */
final class DeviceConnection {

  private static final int PIECE = 1_024;

  /** Ends the thread that writes. */
  private static final byte[] NO_MORE = {};

  private final DeviceLine line;
  private final LineFaults faults;
  private final Consumer<Runnable> doing;
  private final Runnable release;
  private final Runnable gone;
  private final LongSupplier clock;
  private final boolean hangsUp;
  private final BlockingQueue<byte[]> outbox = new ArrayBlockingQueue<>(1);
  private byte[] held = new byte[0];
  private boolean writing;
  private boolean closed;
  private long now;

  /**
   * @param doing takes what the thread that has the device is to do
   * @param release gives the streams back
   * @param gone called when the line has ended
   * @param clock time in microseconds
   * @param hangsUp whether a line that dies ends the streams too, as a network does
   */
  DeviceConnection(
      DeviceLine line,
      LineFaults faults,
      Consumer<Runnable> doing,
      Runnable release,
      Runnable gone,
      LongSupplier clock,
      boolean hangsUp) {
    this.line = line;
    this.faults = faults;
    this.doing = doing;
    this.release = release;
    this.gone = gone;
    this.clock = clock;
    this.hangsUp = hangsUp;
  }

  /** Reads to the end of a stream. */
  void read(InputStream in) {
    byte[] piece = new byte[PIECE];
    try {
      for (int size = in.read(piece); size >= 0; size = in.read(piece)) {
        byte[] some = Arrays.copyOf(piece, size);
        doing.accept(() -> faults.toDevice(some, clock.getAsLong()));
      }
    } catch (IOException e) {
      // Whoever was at the other end is gone, as with the end of the stream.
      doing.accept(this::close);
      return;
    }
    doing.accept(this::close);
  }

  /** Writes what it is given, until it cannot. */
  void write(OutputStream out) {
    try {
      for (byte[] next = outbox.take(); next.length > 0; next = outbox.take()) {
        out.write(next);
        out.flush();
        doing.accept(() -> writing = false);
      }
    } catch (IOException e) {
      doing.accept(this::close);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  boolean closed() {
    return closed;
  }

  /** When something happens on the line by itself, in microseconds. */
  long next() {
    return held.length > 0 ? now : faults.next();
  }

  /** Lets arrive what is due; what the device has no room for waits. */
  void hearken(long time) {
    now = time;
    if (hangsUp && !faults.there(time)) {
      close();
    }
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    all.writeBytes(held);
    if (held.length < PIECE) {
      all.writeBytes(faults.atDevice(time));
    }
    byte[] bytes = all.toByteArray();
    int part = Math.min(bytes.length, line.room());
    line.take(Arrays.copyOf(bytes, part));
    held = Arrays.copyOfRange(bytes, part, bytes.length);
  }

  /** Sends what is to go, as long as it is taken at the other end. */
  void tell(long time) {
    if (writing || closed) {
      return;
    }
    faults.toHost(line.outgoing(), time);
    byte[] bytes = faults.atHost(time);
    if (bytes.length > 0) {
      writing = true;
      outbox.add(bytes);
    }
  }

  void close() {
    if (!closed) {
      closed = true;
      outbox.clear();
      outbox.add(NO_MORE);
      line.close();
      release.run();
      gone.run();
    }
  }
}
