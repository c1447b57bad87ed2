package org.jointwalk.protocol;

/**
 * What a channel touches, as far as ceilings go.
 *
 * @param kind of metal
 * @param sense whether the channel is a sense wire
 * @param delicate whether it serves radio, positioning or a sensor
 * @param nominal voltage that the net carries in operation, in 10 nV; 0 when it is not known
 */
public record Touch(Kind kind, boolean sense, boolean delicate, int nominal) {

  /** What kind of metal it is. */
  public enum Kind implements Coded {
    GROUND(1),
    RAIL(2),
    SIGNAL(3),
    /** No board is behind it. */
    BARE(4);

    private final int code;

    Kind(int code) {
      this.code = code;
    }

    @Override
    public int code() {
      return code;
    }
  }

  private static final int SENSE = 1;
  private static final int DELICATE = 2;

  public Touch {
    Ranges.check("nominal", nominal, 0, Integer.MAX_VALUE);
  }

  static Touch read(In in) throws Malformed {
    Kind kind =
        Coded.of(Kind.class, in.u8()).orElseThrow(() -> new Malformed(Refusal.BAD_VALUE, 0));
    int flags = in.u8();
    In.ask(flags <= (SENSE | DELICATE));
    return new Touch(kind, (flags & SENSE) != 0, (flags & DELICATE) != 0, in.measure());
  }

  void write(Out out) {
    out.u8(kind.code()).u8((sense ? SENSE : 0) | (delicate ? DELICATE : 0)).u32(nominal);
  }
}
