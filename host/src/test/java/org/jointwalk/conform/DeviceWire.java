package org.jointwalk.conform;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.FixtureMapFile;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.files.SpecimenFile;
import org.jointwalk.simulator.Device;
import org.jointwalk.simulator.DeviceLine;
import org.jointwalk.simulator.VirtualFixture;

/** The virtual device in a time of its own, with something between it and the host. */
final class DeviceWire implements Wire {

  private static final Path MAPS = Path.of("..", "fixture-maps");
  private static final long TICK = 1_000_000;
  private static final long MICRO = 1_000;

  final Device device;
  private final DeviceLine line;
  private final Damage damage;
  private final Clock clock;
  private final ByteArrayOutputStream toHost = new ByteArrayOutputStream();

  /** The time of all lines to one device. */
  private static final class Clock {
    private long nanos = 1_000_000_000;
  }

  private DeviceWire(Device device, Damage damage, Clock clock) {
    this.device = device;
    this.damage = damage;
    this.clock = clock;
    line = device.line();
    damage.joins(this);
  }

  /** A photo-relay fixture with nothing wrong on it but the damage. */
  static DeviceWire to(Damage damage, String map) {
    try {
      var read = PadMapFile.read(MAPS.resolve("saltmarsh-s2.pads.json")).value();
      Device device =
          new Device(
              read,
              SpecimenFile.read(MAPS.resolve("saltmarsh-good.stack.json")).value().specimen(),
              FixtureMapFile.read(MAPS.resolve(map)).value(),
              VirtualFixture.Conditions.CALM,
              setUp -> List.of(),
              1,
              new Device.Start(4_711, 1),
              Device.Witness.NONE);
      return new DeviceWire(device, damage, new Clock());
    } catch (FileFaults e) {
      throw new UncheckedIOException(new IOException(e));
    }
  }

  /** Another line to the same device. */
  Optional<Wire> second(Damage other) {
    return Optional.of(new DeviceWire(device, other, clock));
  }

  /** Puts bytes on the line to the device. */
  void toDevice(byte[] bytes) {
    line.take(bytes);
    device.poll(clock.nanos / MICRO);
  }

  /** Puts bytes on the line to the host. */
  void toHost(byte[] bytes) {
    toHost.writeBytes(bytes);
  }

  @Override
  public byte[] read(Duration most) {
    long until = clock.nanos + most.toNanos();
    look();
    while (toHost.size() == 0 && clock.nanos < until) {
      tick(until);
    }
    byte[] bytes = toHost.toByteArray();
    toHost.reset();
    damage.read();
    return bytes;
  }

  private void tick(long until) {
    clock.nanos = Math.min(until, clock.nanos + TICK);
    look();
  }

  private void look() {
    damage.time(clock.nanos);
    device.poll(clock.nanos / MICRO);
    damage.fromDevice(line.outgoing());
  }

  @Override
  public void pass(Duration most) {
    long until = clock.nanos + most.toNanos();
    while (clock.nanos < until) {
      tick(until);
    }
  }

  @Override
  public void write(byte[] bytes) {
    damage.fromHost(bytes.clone());
    look();
  }

  @Override
  public long nanos() {
    return clock.nanos;
  }
}
