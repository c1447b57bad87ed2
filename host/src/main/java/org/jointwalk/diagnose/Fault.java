package org.jointwalk.diagnose;

import org.jointwalk.job.Grade;

/** What a clue says is wrong. */
enum Fault {
  OPEN("no path"),
  HIGH("high resistance"),
  BRIDGED("joined"),
  SHORTED("shorted"),
  DIFFERENT("reads otherwise than a good board");

  private final String words;

  Fault(String words) {
    this.words = words;
  }

  String words() {
    return words;
  }

  /** Whether it is a path that is missing or poor, which a bad probe contact can feign. */
  boolean isPath() {
    return this == OPEN || this == HIGH;
  }

  /** The fault of a position with a grade that asks for a repair. */
  static Fault of(Grade grade) {
    return switch (grade) {
      case OPEN -> OPEN;
      case HIGH -> HIGH;
      case BRIDGED -> BRIDGED;
      case GOOD, NOT_CONTACTED, MASKED, UNRESOLVED, UNDECIDED, LOST_BY_SPLIT, NOT_TESTED ->
          throw new IllegalArgumentException(grade + " is no fault");
    };
  }
}
