package org.jointwalk.link;

import java.util.Optional;
import org.jointwalk.simulator.Device;
import org.jointwalk.simulator.DeviceLine;

/** A virtual device at the other end of a line in memory. */
final class DevicePort implements Port {

  private final Device device;
  private final Ticks ticks;
  private Optional<DeviceLine> line = Optional.empty();

  DevicePort(Device device, Ticks ticks) {
    this.device = device;
    this.ticks = ticks;
  }

  /** Pulls the cable; it can be put back by opening the port anew. */
  void pull() {
    line.ifPresent(DeviceLine::close);
    line = Optional.empty();
  }

  @Override
  public String name() {
    return "device";
  }

  @Override
  public ByteLink open() {
    DeviceLine own = device.line();
    line = Optional.of(own);
    return new MemoryLink(
        name(),
        new MemoryLink.Peer() {

          @Override
          public void take(byte[] bytes) {
            own.take(bytes);
            poll();
          }

          @Override
          public byte[] give() {
            poll();
            return own.outgoing();
          }

          @Override
          public boolean connected() {
            return line.equals(Optional.of(own));
          }

          @Override
          public void hangUp() {
            own.close();
          }
        },
        ticks);
  }

  private void poll() {
    device.poll(ticks.nanos() / 1000);
  }
}
