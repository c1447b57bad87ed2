package org.jointwalk.cli;

/** How the program ends; scripts rely on these numbers. One is never used on purpose. */
enum ExitCode {
  /** All that this set-up can show is good. */
  GOOD(0),
  /** A fault was found. */
  FAULT_FOUND(10),
  /** No fault was found, but something is undecided or was not seen and not accepted as such. */
  UNDECIDED(11),
  /** What the user gave cannot be used. */
  INPUT(2),
  /** The fixture or the link to it failed. */
  FIXTURE(3),
  /** Refused, because going on could hurt someone or burn a board. */
  SAFETY(4),
  /** The job log cannot be read or written. */
  JOB_LOG(5),
  /** Stopped part-way; the pass can be resumed. */
  INTERRUPTED(6),
  /** A defect of this program. */
  DEFECT(70);

  private final int number;

  ExitCode(int number) {
    this.number = number;
  }

  int number() {
    return number;
  }
}
