package org.jointwalk.job;

/** What a pass is run for. */
public enum Purpose {
  DIAGNOSIS,
  REBALL,
  CLOSING
}
