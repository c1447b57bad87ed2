package org.jointwalk.conform;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.Optional;

/**
 * Something between a sound device and its host, which together are one broken fixture. This one
 * changes nothing; each kind of damage overrides what it changes.
 */
class Damage {

  private final ByteArrayOutputStream down = new ByteArrayOutputStream();
  private final ByteArrayOutputStream up = new ByteArrayOutputStream();
  private Optional<DeviceWire> wire = Optional.empty();
  protected long nanos;

  final void joins(DeviceWire line) {
    wire = Optional.of(line);
  }

  protected final DeviceWire wire() {
    return wire.orElseThrow();
  }

  /** Bytes that the host has sent. */
  void fromHost(byte[] bytes) {
    for (byte value : bytes) {
      if (value == 0) {
        byte[] encoded = down.toByteArray();
        down.reset();
        took(encoded);
      } else {
        down.write(value);
      }
    }
  }

  /** Bytes that the device has sent. */
  final void fromDevice(byte[] bytes) {
    for (byte value : bytes) {
      if (value == 0) {
        byte[] encoded = up.toByteArray();
        up.reset();
        RawFrame frame = RawFrame.decoded(encoded).flatMap(RawFrame::read).orElseThrow();
        says(frame);
      } else {
        up.write(value);
      }
    }
  }

  private void took(byte[] encoded) {
    Optional<RawFrame> frame =
        encoded.length > 251
            ? Optional.empty()
            : RawFrame.decoded(encoded).filter(raw -> raw.length <= 250).flatMap(RawFrame::read);
    if (frame.isPresent()) {
      asks(frame.get());
    } else {
      noise(encoded);
    }
  }

  /** Bytes between two delimiters that are no frame; often none at all. */
  void noise(byte[] encoded) {
    wire().toDevice(Arrays.copyOf(encoded, encoded.length + 1));
  }

  /** A frame with a good check from the host. */
  void asks(RawFrame frame) {
    down(frame);
  }

  /** A frame from the device. */
  void says(RawFrame frame) {
    up(frame);
  }

  /** Time has come so far. */
  void time(long now) {
    nanos = now;
  }

  /** The host has looked for bytes. */
  void read() {}

  protected final void down(RawFrame frame) {
    wire().toDevice(frame.wire());
  }

  protected final void up(RawFrame frame) {
    wire().toHost(frame.wire());
  }
}
