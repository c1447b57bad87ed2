package org.jointwalk.protocol;

/** The channels that a step puts on one bus. */
public sealed interface Terminal {

  /** Its two bits in the form of a step. */
  int code();

  /** What follows the form, if its code asks for it. */
  default void write(Out out) {}

  /** None. */
  record Nothing() implements Terminal {

    @Override
    public int code() {
      return 0;
    }
  }

  /**
   * One channel.
   *
   * @param number of it
   */
  record Channel(int number) implements Terminal {

    public Channel {
      Ranges.u16("channel", number);
    }

    @Override
    public int code() {
      return 1;
    }

    @Override
    public void write(Out out) {
      out.u16(number);
    }
  }

  /**
   * Several channels.
   *
   * @param slot that holds them
   */
  record Group(int slot) implements Terminal {

    public Group {
      Ranges.u16("slot", slot);
    }

    @Override
    public int code() {
      return 2;
    }

    @Override
    public void write(Out out) {
      out.u16(slot);
    }
  }

  /** All declared channels that no other terminal of the step has; force-low only. */
  record Rest() implements Terminal {

    @Override
    public int code() {
      return 3;
    }
  }

  static Terminal read(int code, In in) throws Malformed {
    return switch (code) {
      case 0 -> new Nothing();
      case 1 -> new Channel(in.u16());
      case 2 -> new Group(in.u16());
      default -> new Rest();
    };
  }
}
