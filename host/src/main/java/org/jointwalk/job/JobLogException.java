package org.jointwalk.job;

/** The log cannot be read or written. What it acknowledged before stays good. */
public class JobLogException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  /**
   * @param what happened, naming the log and what to do
   */
  public JobLogException(String what) {
    super(what);
  }

  /**
   * @param what happened, naming the log and what to do
   * @param cause from below
   */
  public JobLogException(String what, Throwable cause) {
    super(what, cause);
  }

  /** Somebody else appended to the stream since it was read; nothing was written. */
  public static final class Overtaken extends JobLogException {

    private static final long serialVersionUID = 1L;

    /**
     * @param what happened, naming the log and what to do
     */
    public Overtaken(String what) {
      super(what);
    }
  }
}
