package org.jointwalk.protocol;

/**
 * A fixture's memory of the last request of its session: what is new, what is a repetition, what is
 * refused before it is looked at (7.1). Not thread-safe.
 */
public final class RequestLedger {

  private final int session;
  private int number;
  private long check;
  private Frame answer;

  /**
   * @param hello that opened the session
   * @param check of its frame
   * @param welcome its answer
   */
  public RequestLedger(Frame hello, long check, Frame welcome) {
    this.session = hello.session();
    this.number = hello.number();
    this.check = check;
    this.answer = welcome;
  }

  /** What to do with a request. */
  public sealed interface Order {

    /** Look at it, and keep its answer. */
    record Execute() implements Order {}

    /** Send an answer again, and do nothing else. */
    record Repeat(Frame answer) implements Order {}

    /** Refuse it, and do nothing else. */
    record Refuse(Refusal refusal) implements Order {}
  }

  /**
   * What to do with a request that is neither HELLO nor the stopping part of STOP.
   *
   * @param requestSession as its header says
   * @param requestNumber as its header says
   * @param requestCheck of its frame
   */
  public Order look(int requestSession, int requestNumber, long requestCheck) {
    if (requestSession != session) {
      return new Order.Refuse(Refusal.NO_SESSION);
    }
    short ahead = (short) (requestNumber - number);
    if (ahead < 0) {
      return new Order.Refuse(Refusal.NUMBER_OLD);
    }
    if (ahead > 0) {
      return new Order.Execute();
    }
    return requestCheck == check
        ? new Order.Repeat(answer)
        : new Order.Refuse(Refusal.NUMBER_REUSED);
  }

  /**
   * Keeps the answer of a request that was executed or refused on its content.
   *
   * @param requestCheck of its frame
   * @param given with the session and number of the request
   */
  public void keep(long requestCheck, Frame given) {
    number = given.number();
    check = requestCheck;
    answer = given;
  }

  /**
   * Whether a streamed frame is the next, one before, or one too far on (M62).
   *
   * @param heard number of the last one taken
   * @param streamed number of the one that came
   * @return the difference to the next one; 0 for the next one itself
   */
  public static int ahead(int heard, int streamed) {
    return (short) (streamed - heard - 1);
  }

  /** The session that it belongs to. */
  public int session() {
    return session;
  }
}
