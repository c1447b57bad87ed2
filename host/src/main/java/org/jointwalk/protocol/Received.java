package org.jointwalk.protocol;

/** What a receiver makes of the bytes between two delimiters. */
public sealed interface Received {

  /**
   * A frame that can be read.
   *
   * @param frame what came
   * @param check its check, by which a repetition is known
   */
  record Whole(Frame frame, long check) implements Received {}

  /**
   * A frame that came whole but says nothing that can be read. A fixture refuses it or ends the
   * run; to a host it is a fault of the fixture, unless its type may be ignored.
   *
   * @param type of the message
   * @param session as its header says
   * @param number as its header says
   * @param check its check
   * @param refusal what is wrong: {@link Refusal#UNKNOWN_TYPE}, {@link Refusal#BAD_LENGTH} or
   *     {@link Refusal#BAD_VALUE}
   * @param detail as the refusal says
   */
  record Unreadable(int type, int session, int number, long check, Refusal refusal, long detail)
      implements Received {

    /** Whether an unknown message of this type is passed over (M17, M18). */
    public boolean mayBeIgnored() {
      return refusal == Refusal.UNKNOWN_TYPE
          && ((type >= 0x60 && type <= 0x7F) || (type >= 0xE0 && type <= 0xFF));
    }
  }

  /**
   * Bytes that are dropped without any effect (M11).
   *
   * @param cause why
   * @param length how many there were, the delimiter not counted
   */
  record Dropped(Cause cause, int length) implements Received {}

  /** Why bytes were dropped. */
  enum Cause {
    /** More bytes than the longest frame has. */
    OVERSIZE,
    /** Not an encoding. */
    COBS,
    /** Shorter or longer than a frame may be. */
    LENGTH,
    /** The check does not agree: some byte was damaged. */
    CHECK,
    /** A type that only this end sends: the line echoes. */
    DIRECTION
  }
}
