package org.jointwalk.campaign;

import java.util.Optional;
import org.jointwalk.link.ByteLink;
import org.jointwalk.link.LinkException;
import org.jointwalk.link.MemoryLink;
import org.jointwalk.link.Port;
import org.jointwalk.simulator.Device;
import org.jointwalk.simulator.DeviceLine;
import org.jointwalk.simulator.LineFaults;

/** A virtual device behind a line with faults, in simulated time. One thread. */
final class WeatheredPort implements Port {

  private final Device device;
  private final LineFaults faults;
  private final SimulatedTime time;
  private Optional<DeviceLine> line = Optional.empty();
  private long toDevice;
  private long toHost;

  WeatheredPort(Device device, LineFaults faults, SimulatedTime time) {
    this.device = device;
    this.faults = faults;
    this.time = time;
  }

  /** Bytes sent so far in the direction that carried more. */
  long bytes() {
    return Math.max(toDevice, toHost);
  }

  @Override
  public String name() {
    return "line";
  }

  @Override
  public ByteLink open() throws LinkException {
    if (!faults.there(time.micros())) {
      throw new LinkException(name(), LinkException.Cause.MISSING, "There is no line.");
    }
    DeviceLine own = device.line();
    line = Optional.of(own);
    return new MemoryLink(name(), new Far(own), time);
  }

  private final class Far implements MemoryLink.Peer {

    private final DeviceLine own;

    private Far(DeviceLine own) {
      this.own = own;
    }

    @Override
    public void take(byte[] bytes) {
      toDevice += bytes.length;
      faults.toDevice(bytes, time.micros());
      work();
    }

    @Override
    public byte[] give() {
      work();
      return faults.atHost(time.micros());
    }

    @Override
    public boolean connected() {
      boolean is = faults.there(time.micros()) && line.equals(Optional.of(own));
      if (!is) {
        own.close();
        device.poll(time.micros());
      }
      return is;
    }

    @Override
    public void hangUp() {
      own.close();
      device.poll(time.micros());
    }

    private void work() {
      long now = time.micros();
      own.take(faults.atDevice(now));
      device.poll(now);
      byte[] out = own.outgoing();
      toHost += out.length;
      faults.toHost(out, now);
    }
  }
}
