package org.jointwalk.simulator;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.random.RandomGenerator;

/**
 * A line between a host and a device that is no better than real ones: it takes its time, and now
 * and then damages what it carries. What it does depends on its weather, its random numbers, and on
 * what is sent when; on nothing else. Not thread-safe.
 */
public final class LineFaults {

  private final Way toDevice;
  private final Way toHost;
  private final LineWeather weather;
  private boolean there = true;

  /**
   * @param weather of both directions
   * @param random that decides what happens to which frame
   */
  public LineFaults(LineWeather weather, RandomGenerator random) {
    this.weather = weather;
    toDevice = new Way(weather, random);
    toHost = new Way(weather, random);
  }

  /** Sends bytes to the device; while the line is gone they are lost. */
  public void toDevice(byte[] bytes, long now) {
    send(toDevice, bytes, now);
  }

  /** Sends bytes to the host; while the line is gone they are lost. */
  public void toHost(byte[] bytes, long now) {
    send(toHost, bytes, now);
  }

  /** What has reached the device by now and was not fetched yet. */
  public byte[] atDevice(long now) {
    return fetch(toDevice, now);
  }

  /** What has reached the host by now and was not fetched yet. */
  public byte[] atHost(long now) {
    return fetch(toHost, now);
  }

  /**
   * Whether the line is there; when it dies, what is on its way is lost.
   *
   * @param now in microseconds from the first use
   */
  public boolean there(long now) {
    boolean is =
        weather.vanishes() < 0
            || now < weather.vanishes()
            || now >= weather.vanishes() + weather.gone();
    if (there && !is) {
      toDevice.clear();
      toHost.clear();
    }
    there = is;
    return is;
  }

  /** When the next bytes arrive somewhere, in microseconds; far off when none are on their way. */
  public long next() {
    return Math.min(toDevice.next(), toHost.next());
  }

  private void send(Way way, byte[] bytes, long now) {
    if (there(now)) {
      way.send(bytes, now);
    }
  }

  private byte[] fetch(Way way, long now) {
    return there(now) ? way.fetch(now) : new byte[0];
  }

  /** One direction: pieces arrive in their order. */
  private static final class Way {

    private static final long SHORT = 2_000;
    private static final long USUAL = 16_000;
    private static final long LONG = 150_000;

    private final LineWeather weather;
    private final RandomGenerator random;
    private final Deque<Piece> pieces = new ArrayDeque<>();
    private final List<Byte> frame = new ArrayList<>();
    private long free = Long.MIN_VALUE;
    private long last = Long.MIN_VALUE;

    private Way(LineWeather weather, RandomGenerator random) {
      this.weather = weather;
      this.random = random;
    }

    /** Bytes with the time at which the last of them arrives. */
    private static final class Piece {

      private final byte[] bytes;
      private final long at;

      private Piece(byte[] bytes, long at) {
        this.bytes = bytes;
        this.at = at;
      }
    }

    private void clear() {
      pieces.clear();
      frame.clear();
      free = Long.MIN_VALUE;
      last = Long.MIN_VALUE;
    }

    private long next() {
      return pieces.isEmpty() ? Long.MAX_VALUE : pieces.element().at;
    }

    /** Faults befall whole frames; half a frame waits for its other half. */
    private void send(byte[] bytes, long now) {
      for (byte value : bytes) {
        frame.add(value);
        if (value == 0) {
          befall(now);
        }
      }
    }

    private void befall(long now) {
      byte[] whole = new byte[frame.size()];
      for (int i = 0; i < whole.length; i++) {
        whole[i] = frame.get(i);
      }
      frame.clear();
      if (happens(weather.garbage())) {
        byte[] noise = new byte[1 + random.nextInt(40)];
        random.nextBytes(noise);
        carry(noise, now);
      }
      if (happens(weather.drop())) {
        return;
      }
      if (happens(weather.corrupt())) {
        whole[random.nextInt(whole.length)] ^= (byte) (1 << random.nextInt(8));
      }
      carry(whole, now);
      if (happens(weather.duplicate())) {
        carry(whole, now);
      }
    }

    private boolean happens(double share) {
      return share > 0 && random.nextDouble() < share;
    }

    private void carry(byte[] bytes, long now) {
      long begins = Math.max(now, free);
      long takes = weather.rate() == 0 ? 0 : bytes.length * 1_000_000L / weather.rate();
      free = begins + takes;
      long held = latency() + (happens(weather.delay()) ? weather.delayMicros() : 0);
      last = Math.max(last, free + held);
      pieces.add(new Piece(bytes, last));
    }

    private long latency() {
      if (!weather.latency()) {
        return 0;
      }
      return SHORT + (happens(0.3) ? USUAL : 0) + (happens(0.001) ? LONG : 0);
    }

    private byte[] fetch(long now) {
      int size = 0;
      List<Piece> ready = new ArrayList<>();
      while (!pieces.isEmpty() && pieces.element().at <= now) {
        size += pieces.element().bytes.length;
        ready.add(pieces.remove());
      }
      byte[] all = new byte[size];
      int at = 0;
      for (Piece piece : ready) {
        System.arraycopy(piece.bytes, 0, all, at, piece.bytes.length);
        at += piece.bytes.length;
      }
      return all;
    }
  }
}
