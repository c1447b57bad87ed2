package org.jointwalk.protocol;

/**
 * A pair of raw values as the fixture counts them.
 *
 * @param volt in 10 nV
 * @param amp in 100 pA
 */
public record Raw(int volt, int amp) {

  public Raw {
    Ranges.measure("volt", volt);
    Ranges.measure("amp", amp);
  }

  static Raw read(In in) throws Malformed {
    return new Raw(in.measure(), in.measure());
  }

  void write(Out out) {
    out.u32(volt).u32(amp);
  }
}
