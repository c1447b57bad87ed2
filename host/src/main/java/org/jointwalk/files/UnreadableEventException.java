package org.jointwalk.files;

/** A log entry that this version of the program cannot read. The entry itself is left as it is. */
public final class UnreadableEventException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final String kind;
  private final int version;

  /**
   * @param kind as the log has it
   * @param version as the log has it
   * @param reason what is wrong and what to do
   */
  UnreadableEventException(String kind, int version, String reason) {
    super("event \"" + kind + "\" version " + version + ": " + reason);
    this.kind = kind;
    this.version = version;
  }

  /** The kind that the log names. */
  public String kind() {
    return kind;
  }

  /** The version that the log names. */
  public int version() {
    return version;
  }
}
