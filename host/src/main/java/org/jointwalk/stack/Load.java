package org.jointwalk.stack;

import org.jointwalk.quantity.Ohms;

/**
 * One element of a board's load graph, between two of its nodes. A node is a net's name or, between
 * two loads in series, any other name of the same board.
 *
 * <p>Values are those of a typical good board; a reference says what was measured.
 */
public sealed interface Load {

  /** The board. */
  Side side();

  /** One end; for a junction the anode. */
  String from();

  /** The other end; for a junction the cathode. */
  String to();

  /** A resistance, such as a pull-up or a rail's load at low voltage. */
  record Resistor(Side side, String from, String to, Ohms ohms) implements Load {}

  /**
   * A junction, such as the protection at a chip's pin.
   *
   * @param material silicon or Schottky
   */
  record Junction(Side side, String from, String to, Material material) implements Load {}

  /** An inductor or bead; {@code ohms} is its winding. */
  record Inductor(Side side, String from, String to, Ohms ohms) implements Load {}

  /**
   * A capacitor.
   *
   * @param farads capacitance, positive
   */
  record Capacitor(Side side, String from, String to, double farads) implements Load {

    public Capacitor {
      if (!(farads > 0) || Double.isInfinite(farads)) {
        throw new IllegalArgumentException("farads must be positive and finite, not " + farads);
      }
    }
  }

  /** Something is there and nobody knows what. */
  record Unknown(Side side, String from, String to) implements Load {}

  /** What a junction is made of; it decides at which voltage it starts to conduct. */
  enum Material {
    SILICON,
    SCHOTTKY
  }
}
