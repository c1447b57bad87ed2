package org.jointwalk.simulator;

import org.jointwalk.protocol.RequestLedger;

/** The open session of a {@link Device}. Not thread-safe. */
final class DeviceSession {

  private static final int U16 = 0xFFFF;

  private final long nonce;
  private final DeviceLine line;
  private final RequestLedger ledger;
  private long heardAt;

  DeviceSession(long nonce, DeviceLine line, RequestLedger ledger, long now) {
    this.nonce = nonce;
    this.line = line;
    this.ledger = ledger;
    heardAt = now;
  }

  long nonce() {
    return nonce;
  }

  /** What its frames carry. */
  int number() {
    return (int) (nonce & U16);
  }

  DeviceLine line() {
    return line;
  }

  RequestLedger ledger() {
    return ledger;
  }

  /** When the last frame of it came, in microseconds. */
  long heardAt() {
    return heardAt;
  }

  void hear(long now) {
    heardAt = now;
  }
}
