package org.jointwalk.protocol;

/**
 * One step of a program, in channels.
 *
 * @param setting slot of its setting
 * @param together whether it and the next are one configuration
 * @param forceHigh where the current comes from
 * @param forceLow where it goes to
 * @param senseHigh where the voltage is read; nothing for the force terminal itself
 * @param senseLow where the voltage is read
 */
public record WireStep(
    int setting,
    boolean together,
    Terminal forceHigh,
    Terminal forceLow,
    Terminal senseHigh,
    Terminal senseLow) {

  private static final int TOGETHER = 0x80;

  public WireStep {
    Ranges.check("setting", setting, 0, TOGETHER - 1);
    if (forceHigh instanceof Terminal.Rest
        || senseHigh instanceof Terminal.Rest
        || senseLow instanceof Terminal.Rest) {
      throw new IllegalArgumentException("rest can only be on force-low");
    }
  }

  static WireStep read(In in) throws Malformed {
    int setting = in.u8();
    int form = in.u8();
    Terminal forceHigh = Terminal.read(form & 3, in);
    Terminal forceLow = Terminal.read((form >> 2) & 3, in);
    Terminal senseHigh = Terminal.read((form >> 4) & 3, in);
    Terminal senseLow = Terminal.read((form >> 6) & 3, in);
    return new WireStep(
        setting % TOGETHER, setting >= TOGETHER, forceHigh, forceLow, senseHigh, senseLow);
  }

  void write(Out out) {
    out.u8(setting | (together ? TOGETHER : 0));
    out.u8(
        forceHigh.code()
            | (forceLow.code() << 2)
            | (senseHigh.code() << 4)
            | (senseLow.code() << 6));
    forceHigh.write(out);
    forceLow.write(out);
    senseHigh.write(out);
    senseLow.write(out);
  }

  /** Bytes that it takes on the line. */
  int size() {
    Out out = new Out();
    write(out);
    return out.done().size();
  }
}
