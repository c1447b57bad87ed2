package org.jointwalk.protocol;

/**
 * What a channel touches, as far as ceilings go.
 *
 * @param kind of metal
 * @param sense whether the channel is a sense wire
 * @param nominal voltage that the net carries in operation, in 10 nV; 0 when it is not known
 */
public record Touch(Kind kind, boolean sense, int nominal) {

  /** From the least to the most careful, but for the last. */
  public enum Kind implements Coded {
    GROUND(1),
    RAIL(2),
    SIGNAL(3),
    /** Radio, positioning or sensor. */
    DELICATE(4),
    /** No board is behind it. */
    BARE(5);

    private final int code;

    Kind(int code) {
      this.code = code;
    }

    @Override
    public int code() {
      return code;
    }
  }

  public Touch {
    Ranges.check("nominal", nominal, 0, Integer.MAX_VALUE);
  }

  static Touch read(In in) throws Malformed {
    Kind kind =
        Coded.of(Kind.class, in.u8()).orElseThrow(() -> new Malformed(Refusal.BAD_VALUE, 0));
    return new Touch(kind, in.flag(), in.measure());
  }

  void write(Out out) {
    out.u8(kind.code()).flag(sense).u32(nominal);
  }
}
