package org.jointwalk.pass;

/** A pass cannot go on for a reason that is neither the fixture's nor the log's. */
public sealed class PassException extends Exception
    permits PassException.Unsafe, PassException.Impossible, PassException.Interrupted {

  private static final long serialVersionUID = 1L;

  private PassException(String message) {
    super(message);
  }

  /** Going on could harm the device. */
  public static final class Unsafe extends PassException {

    private static final long serialVersionUID = 1L;

    /**
     * @param danger which net, how many volts, what to do
     */
    public Unsafe(String danger) {
      super(danger);
    }
  }

  /** What was asked cannot be there. */
  public static final class Impossible extends PassException {

    private static final long serialVersionUID = 1L;

    /**
     * @param reason what is missing, and what to record or choose instead
     */
    public Impossible(String reason) {
      super(reason);
    }
  }

  /** The pass was stopped and can be resumed. */
  public static final class Interrupted extends PassException {

    private static final long serialVersionUID = 1L;

    /**
     * @param where how far it came, and what to do
     */
    public Interrupted(String where) {
      super(where);
    }
  }
}
