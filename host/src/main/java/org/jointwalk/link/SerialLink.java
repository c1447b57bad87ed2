package org.jointwalk.link;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;

/** A fixture at a serial device: a port, a USB adapter, a pseudo-terminal. Stateless. */
final class SerialLink {

  /**
   * Reads return at least this often, so that a closed line is noticed; data wakes them at once.
   */
  private static final int WAKE_MS = 100;

  private static final int DATA_BITS = 8;

  private SerialLink() {}

  /**
   * Opens a device.
   *
   * @param name as the user calls it; looked up anew each time, since a link may point elsewhere
   */
  static ByteLink open(String name, LinkSettings settings) throws LinkException {
    SerialPort port = find(name);
    port.setComPortParameters(
        settings.baud(), DATA_BITS, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
    port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
    port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, WAKE_MS, 0);
    // Only the truth value tells: the library leaves an error number behind a good opening too.
    if (!port.openPort(0)) {
      throw closed(name);
    }
    return new Threaded(name, new Wire(port), settings.write());
  }

  /** The devices that this computer lists; pseudo-terminals are never among them. */
  static List<String> listed() throws LinkException {
    try {
      return List.of(SerialPort.getCommPorts()).stream()
          .map(SerialPort::getSystemPortPath)
          .sorted()
          .toList();
    } catch (LinkageError e) {
      throw unloadable("the serial ports");
    }
  }

  private static SerialPort find(String name) throws LinkException {
    try {
      return SerialPort.getCommPort(name);
    } catch (SerialPortInvalidPortException e) {
      throw missing(name, "there is no such device");
    } catch (LinkageError e) {
      throw unloadable(name);
    }
  }

  private static LinkException closed(String name) {
    try {
      Path device = Path.of(name);
      if (Files.exists(device)) {
        if (Files.isRegularFile(device) || Files.isDirectory(device)) {
          return missing(name, "it is a file and no device");
        }
        if (!Files.isReadable(device) || !Files.isWritable(device)) {
          return new LinkException(
              name,
              LinkException.Cause.DENIED,
              "You may not open "
                  + name
                  + ". On Linux its group is often dialout: have yourself added to it, then log in"
                  + " again.");
        }
      }
    } catch (InvalidPathException e) {
      return missing(name, "there is no such device");
    }
    return new LinkException(
        name,
        LinkException.Cause.BUSY,
        "Another program holds " + name + ". Close it there, or wait until its pass is over.");
  }

  private static LinkException missing(String name, String why) {
    return new LinkException(
        name,
        LinkException.Cause.MISSING,
        "No port "
            + name
            + ": "
            + why
            + ". Plug the fixture in; \"jointwalk fixture find\" lists what there is.");
  }

  private static LinkException unloadable(String name) {
    return new LinkException(
        name,
        LinkException.Cause.DENIED,
        "This computer does not let the serial library load, which "
            + name
            + " needs. Name a folder that programs may be loaded from:"
            + " JOINTWALK_JAVA_OPTS=-Djava.io.tmpdir=FOLDER.");
  }

  private record Wire(SerialPort port) implements Threaded.Wire {

    @Override
    public int read(byte[] into) {
      // Negative when the other end has gone, and from then on at once each time.
      return port.readBytes(into, into.length);
    }

    @Override
    public void write(byte[] bytes) throws IOException {
      int written = 0;
      while (written < bytes.length) {
        int count = port.writeBytes(bytes, bytes.length - written, written);
        if (count <= 0) {
          throw new IOException("the port took " + written + " of " + bytes.length + " bytes");
        }
        written += count;
      }
    }

    @Override
    public void close() {
      port.closePort();
    }
  }
}
