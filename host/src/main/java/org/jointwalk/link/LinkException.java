package org.jointwalk.link;

/** A line failed. Says which line, and how in a word; the message is for the technician. */
public final class LinkException extends Exception {

  private static final long serialVersionUID = 1L;

  private final String line;
  private final Cause failure;
  private final String told;

  /** How a line fails. */
  public enum Cause {
    /** There is nothing of this name. */
    MISSING,
    /** This user may not open it. */
    DENIED,
    /** Another program holds it. */
    BUSY,
    /** It was open, and its other end or its device has gone. */
    GONE,
    /** It takes no more bytes. */
    STUCK,
    /** It takes bytes, but what is asked is not answered any more. */
    SILENT,
    /** What answers does not know this program any more: it has started anew. */
    FORGOTTEN
  }

  /**
   * @param line as its user calls it
   * @param failure how it failed
   * @param message what was tried and what to do, in whole sentences
   */
  public LinkException(String line, Cause failure, String message) {
    super(message);
    this.line = line;
    this.failure = failure;
    this.told = message;
  }

  /** What was tried and what to do, for the technician. */
  public String told() {
    return told;
  }

  /** The line, as its user calls it. */
  public String line() {
    return line;
  }

  /** How it failed. */
  public Cause failure() {
    return failure;
  }
}
