package org.jointwalk.stack;

/** What a net is for, as far as measuring is concerned. */
public enum Role {
  GROUND,
  RAIL,
  SIGNAL,
  /** Not connected, or mechanical only. */
  UNUSED
}
