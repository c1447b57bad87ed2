package org.jointwalk.architecture.offender.quantity;

import java.time.Instant;

final class ReadsTheClock {

  Instant now() {
    return Instant.now();
  }
}
