package org.jointwalk.job;

/** Whether the failing function comes back while the halves are clamped together. */
public enum WorksClamped {
  YES,
  NO,
  SOMETIMES,
  NOT_TRIED
}
