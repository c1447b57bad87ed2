package org.jointwalk.files;

import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Role;

/** What a pad map need not say. Typical values, no source. Stateless. */
final class Defaults {

  /** Largest resistance of a good joint on a signal net. */
  static final Ohms SIGNAL_LIMIT = new Ohms(2);

  /** Largest resistance of a good joint on a rail or on ground. */
  static final Ohms POWER_LIMIT = new Ohms(0.5);

  /** A good via of the interposer from land to land. */
  static final Ohms VIA = new Ohms(0.005);

  /** Copper from a pad to where the net's pads meet. */
  static final Ohms TRACE = new Ohms(0.02);

  /** Copper from a tied land to the common metal. */
  static final Ohms TIE = new Ohms(0.001);

  /** The function of a net of which nobody knows what it serves. */
  static final String FUNCTION = "unknown";

  private Defaults() {}

  /** Whether direct current can flow from a net to ground, where the map does not say. */
  static boolean dcPath(Role role) {
    return role != Role.UNUSED;
  }
}
