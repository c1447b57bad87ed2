package org.jointwalk.job;

/** What is done with a fixture outside of any job. */
public enum FixtureTask {
  /** Its switches are measured on the shorting plate. */
  ZERO,
  /** It is looked over for what is wrong with it. */
  CHECK,
  /** How well it repeats is found out. */
  STUDY
}
