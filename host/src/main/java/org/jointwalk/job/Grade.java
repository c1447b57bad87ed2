package org.jointwalk.job;

/** What can be said of one position after a pass. */
public enum Grade {
  GOOD("connected"),
  HIGH("high resistance"),
  OPEN("no path"),
  BRIDGED("bridged"),
  NOT_CONTACTED("probe did not land"),
  MASKED("seen only as a set"),
  UNRESOLVED("connected, value not resolved"),
  UNDECIDED("undecided"),
  LOST_BY_SPLIT("lost by the split"),
  NOT_TESTED("not seen");

  private final String words;

  Grade(String words) {
    this.words = words;
  }

  /** The plain words that screens use. */
  public String words() {
    return words;
  }

  /** Whether a repair is asked for. */
  public boolean isFault() {
    return this == HIGH || this == OPEN || this == BRIDGED;
  }

  /** Whether current was seen to pass. */
  public boolean isConnected() {
    return this == GOOD || this == UNRESOLVED;
  }
}
