package org.jointwalk.link;

import java.io.IOException;
import java.time.Duration;
import java.util.Arrays;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.logging.Level;
import java.util.logging.Logger;

/**
 * A line over calls that block. One thread always reads, so that the buffers of two kernels never
 * fill in both directions; another one writes, because some writes block for ever, whatever timeout
 * they were given. Closing frees both.
 */
final class Threaded implements ByteLink {

  private static final Logger LOG = Logger.getLogger(Threaded.class.getName());

  private static final int PIECE = 4096;

  /** Pieces that wait to be read: 4 MB at the most. A fixture that floods is read no further. */
  private static final int PIECES = 1024;

  /** Stands behind the last bytes that came. */
  private static final byte[] END = new byte[0];

  private final String name;
  private final Wire wire;
  private final Duration deadline;
  private final BlockingQueue<byte[]> arrived = new ArrayBlockingQueue<>(PIECES);
  private final AtomicBoolean closed = new AtomicBoolean();
  private final ExecutorService writer;
  private boolean ended;

  /** What a line can do in calls that block. */
  interface Wire {

    /**
     * Reads at least one byte, or waits at least some milliseconds.
     *
     * @return how many; 0 when none came, negative when none can come any more
     */
    int read(byte[] into) throws IOException;

    /** Writes all of it, or waits for ever. */
    void write(byte[] bytes) throws IOException;

    /** Ends a read and a write that are under way. */
    void close();
  }

  /**
   * @param name as the user calls it
   * @param wire open
   * @param deadline for a write
   */
  Threaded(String name, Wire wire, Duration deadline) {
    this.name = name;
    this.wire = wire;
    this.deadline = deadline;
    writer = Executors.newSingleThreadExecutor(task -> daemon(task, "writes to " + name));
    daemon(this::pump, "reads from " + name).start();
  }

  private static Thread daemon(Runnable task, String name) {
    Thread thread = new Thread(task, name);
    thread.setDaemon(true);
    return thread;
  }

  private void pump() {
    byte[] buffer = new byte[PIECE];
    try {
      int count = wire.read(buffer);
      while (count >= 0 && !closed.get()) {
        if (count > 0) {
          arrived.put(Arrays.copyOf(buffer, count));
        }
        count = wire.read(buffer);
      }
    } catch (IOException e) {
      LOG.log(Level.FINE, "the line cannot be read any more", e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    // The reader of this line may be behind; what came before the end is read first.
    boolean placed = false;
    while (!closed.get() && !placed) {
      placed = offerEnd();
    }
  }

  private boolean offerEnd() {
    try {
      return arrived.offer(END, 100, TimeUnit.MILLISECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return true;
    }
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public byte[] read(Duration most) throws LinkException {
    if (ended || closed.get()) {
      throw gone();
    }
    try {
      byte[] piece = arrived.poll(most.toNanos(), TimeUnit.NANOSECONDS);
      if (piece == null) {
        return END;
      }
      if (piece.length == 0) {
        ended = true;
        throw gone();
      }
      return piece;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw gone();
    }
  }

  @Override
  public void write(byte[] bytes) throws LinkException {
    byte[] copy = bytes.clone();
    try {
      Future<?> written =
          writer.submit(
              () -> {
                wire.write(copy);
                return copy.length;
              });
      written.get(deadline.toNanos(), TimeUnit.NANOSECONDS);
    } catch (TimeoutException e) {
      close();
      throw new LinkException(
          name,
          LinkException.Cause.STUCK,
          name
              + " has taken no bytes for "
              + deadline.toMillis()
              + " ms. Pull the fixture's plug, put it back, and start again.");
    } catch (ExecutionException | RejectedExecutionException e) {
      throw gone();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw gone();
    }
  }

  private LinkException gone() {
    return new LinkException(
        name,
        LinkException.Cause.GONE,
        name + " has gone. Look whether the cable sits and the fixture has power.");
  }

  @Override
  public void close() {
    if (closed.compareAndSet(false, true)) {
      wire.close();
      writer.shutdownNow();
    }
  }
}
