package org.jointwalk.saltmarsh;

import org.jointwalk.stack.PadMap;

/** The device of the demo: a handheld data terminal for bird-ringing crews, invented. */
public final class SaltmarshS2 {

  private static final PadMap MAP = Ring.named("Saltmarsh S2", 420, 3, 1);

  private SaltmarshS2() {}

  /** Its pad map without known-good readings. */
  public static PadMap unlearned() {
    return MAP;
  }
}
